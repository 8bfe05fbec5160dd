"""What a toile taught, put back: notes in a maker's words into the wearer, or into this garment alone."""
