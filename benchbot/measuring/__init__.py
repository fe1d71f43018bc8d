"""What was measured on a part, held against the limits of the book."""
