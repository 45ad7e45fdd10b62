"""Lines on their way from one device to another: as frames for a camera, and a few words as a code to type."""
