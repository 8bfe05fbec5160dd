"""The commands: each reads its arguments, calls the library, and tells a person or a machine what came of it."""
