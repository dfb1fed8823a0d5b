"""What dresses a page: one file a format."""
