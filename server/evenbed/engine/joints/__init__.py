"""Movement joints: where they run, how wide they are, and what panels they leave."""
