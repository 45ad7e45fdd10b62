"""The week of a house in words: what was typed as a house and its batches, its tables, its notes."""
