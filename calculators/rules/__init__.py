"""What the trade decides by: limits and verdicts as data; no sentences."""
