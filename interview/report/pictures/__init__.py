"""The tank to scale and charts, each in characters and as SVG."""
