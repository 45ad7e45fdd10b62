"""What the trade decides by: limits and verdicts. Numbers in, data out; no sentences."""
