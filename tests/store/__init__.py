"""Files on a disk: whole or not at all."""
