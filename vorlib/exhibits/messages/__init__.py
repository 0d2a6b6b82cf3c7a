"""What goes from a kernel to its page and back, and none of it lost or late."""
