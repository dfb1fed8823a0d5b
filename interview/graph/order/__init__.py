"""In which order questions are asked, how long they take, and how far one has come."""
