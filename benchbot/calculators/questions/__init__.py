"""One module for each thing asked: what a message must hold, what is asked back, and the calculation."""
