"""Gives the tests a data folder of their own, before Django reads its settings.

Loaded by `-p tests.place` (pyproject.toml): a conftest would come too late, since pytest-django
reads the settings first.
"""

import atexit
import os
import shutil
import tempfile

FOLDER = tempfile.mkdtemp(prefix="gallery-tests-")
atexit.register(shutil.rmtree, FOLDER, ignore_errors=True)
for name in [name for name in os.environ if name.startswith("GALLERY_")]:
    if name not in ("GALLERY_TESTS_NO_SKIPS", "GALLERY_TESTS_POSTGRES"):
        del os.environ[name]
if os.environ.get("GALLERY_TESTS_POSTGRES"):  # the same tests on the other database
    os.environ["GALLERY_POSTGRES"] = os.environ["GALLERY_TESTS_POSTGRES"]
os.environ["GALLERY_DATA_DIR"] = FOLDER
