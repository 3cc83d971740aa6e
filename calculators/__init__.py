"""Small pure calculators: they run in the build and, unchanged, on the phone. Standard library only."""
