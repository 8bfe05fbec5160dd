"""What is made for an open front and its shoulders: stomachers and straps, pieces of their own beside the panels."""
