"""What turns docs/ and calculators/ into the site. It knows nothing of malting."""
