"""What counts of corns can show."""
