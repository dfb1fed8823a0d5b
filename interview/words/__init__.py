"""What people type, read as readings and choices: one small grammar, told what to expect."""
