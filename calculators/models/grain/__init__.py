"""The barley itself: its tests and its drying."""
