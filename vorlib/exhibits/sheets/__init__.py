"""Printed sheets as a notebook shows and saves them."""
