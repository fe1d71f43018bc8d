"""Bookwork: a curator's day at the phone, from what nobody could answer to a checked row that everyone gets."""
