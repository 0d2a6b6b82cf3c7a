"""Pictures and words about questions and a class."""
