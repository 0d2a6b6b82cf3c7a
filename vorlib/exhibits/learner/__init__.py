"""Practice, predictions and the learner's own record."""
