"""The learner's record: kept, exported, collected."""
