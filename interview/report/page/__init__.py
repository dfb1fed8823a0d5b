"""The page of an audit, part by part."""
