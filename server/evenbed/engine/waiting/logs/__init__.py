"""What a temperature logger wrote, read in: any separator, any usual way to write a time."""
