"""One row for everything known about a tank, asked or computed: what every other room looks up."""
