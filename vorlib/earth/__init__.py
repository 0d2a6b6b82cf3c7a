"""Positions and geodesics on the WGS 84 ellipsoid, and magnetic variation."""
