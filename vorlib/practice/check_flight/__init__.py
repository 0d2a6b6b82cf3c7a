"""Check flight."""
