"""What a good annotator says of famous games: a yardstick for what is drafted."""
