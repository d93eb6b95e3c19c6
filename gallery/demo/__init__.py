"""The demo scenario: an invented series, invented knitters and their drawn photographs."""
