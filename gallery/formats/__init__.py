"""How dates are written where Django's own way is not ours; a folder for each language."""
