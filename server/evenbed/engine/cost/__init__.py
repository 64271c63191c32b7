"""What a bed takes, costs and weighs: the order, the quote and the load."""
