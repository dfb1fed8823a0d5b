"""The tank as things with places and sizes, before anybody draws it."""
