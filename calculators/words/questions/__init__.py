"""Questions that several sheets ask."""
