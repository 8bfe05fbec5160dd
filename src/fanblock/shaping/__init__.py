"""What is done to panels once they are separated: darts stitched, pieces let in, layers cut from outlines of their own."""
