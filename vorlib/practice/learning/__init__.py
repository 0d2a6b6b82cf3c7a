"""What a learner has answered, may misunderstand, and should practice next."""
