"""From pattern to paper: pieces laid out, drawn as plain primitives, then written as SVG, PDF, PNG and HTML."""
