"""Exhibits about what the receiver hears: the two tones and the ident."""
