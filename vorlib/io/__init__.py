"""Text in, files written whole, and small durable SQLite files."""
