"""What a shelf of yarn can become, offline, in one file. Start reading at DEVELOPERS.md."""
