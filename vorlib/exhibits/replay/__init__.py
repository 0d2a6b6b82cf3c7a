"""Flights played back: what happens through time, a strip of it, and the transport."""
