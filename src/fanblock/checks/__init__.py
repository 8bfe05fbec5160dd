"""What is proved or refuted about a pattern, one file a family. Checks only look; they never repair."""
