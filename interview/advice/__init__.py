"""What if, the workable window, the smallest set of changes, what to buy, when to look again."""
