"""Changing a garment after it was sent, from the sender's private page."""
