"""What a good teacher does with a lesson: where to stop, what to ask, what to answer."""
