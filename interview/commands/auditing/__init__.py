"""`tankside audit`, of one setup or of several."""
