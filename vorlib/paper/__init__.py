"""Printable sheets: pages made of the same primitives as the pictures, saved as PDF."""
