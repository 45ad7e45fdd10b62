"""Carbon dioxide in air and in shut vessels, and what a person has breathed."""
