"""A growing bed on floor or in drum: heat, air, growth."""
