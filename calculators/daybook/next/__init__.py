"""What comes next for a batch, and when."""
