"""In which order questions are asked, and how long they take."""
