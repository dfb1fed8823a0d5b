"""The basking spot and the platform it is on."""
