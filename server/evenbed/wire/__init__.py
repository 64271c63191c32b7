"""The shapes that travel between phone and service: requests, replies, refusals, problems, and their version."""
