"""Jobwork: a procedure walked at the vehicle, step by step, by as many people as it takes, into one record."""
