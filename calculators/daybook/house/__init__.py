"""What a house's batches say together."""
