"""The checks as data, and one tank held against them."""
