"""Printable sheets: pages drawn with the same primitives as the pictures, saved as PDF."""
