"""What a coach wants of a class."""
