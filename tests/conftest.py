"""Furniture of the tests: a plain static store, a place of its own for files, the fixed cast."""

import os
import tempfile

# Before Django reads its settings: tests never touch the data of a site beside them.
os.environ["GALLERY_DATA_DIR"] = tempfile.mkdtemp(prefix="gallery-tests-")
os.environ.pop("GALLERY_BASE_URL", None)
os.environ.pop("GALLERY_POSTGRES", None)
