"""What a question is, how answers are read, and the misconceptions they show."""
