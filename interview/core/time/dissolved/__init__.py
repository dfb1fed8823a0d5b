"""What is dissolved in the water through time: nitrogen and oxygen."""
