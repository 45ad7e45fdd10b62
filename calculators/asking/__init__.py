"""What a sheet is made of, and how typed text becomes values and an answer. Knows no trade."""
