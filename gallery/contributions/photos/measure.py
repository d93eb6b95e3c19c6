"""Whether a picture is very dark or blurred, told to its sender, and its perceptual hash.

Thresholds were tried on photographs of telephones and cameras and on drawn ones, each also blurred
by a Gaussian of 8 and 12 pixels on a side of 4000: of 15 sharp ones none was called blurred (the
least sharp has 148), of the same 15 blurred by 12 pixels all were, by 8 pixels 12.
"""

import imagehash
import numpy as np
from numpy.typing import NDArray
from PIL import Image

from gallery.contributions.photos.upright import fitted

DARK, BLURRED = "dark", "blurred"
WORKING_SIDE = 800  # pixels, so that the measure does not depend on the camera
# Half of all pixels are darker than this level of 255 (L* about 17): common practice, no source.
DARK_BELOW = 45.0
# Variance of the Laplacian at the working size, as a measure of focus: J. L. Pech-Pacheco and
# others, "Diatom autofocusing in brightfield microscopy", ICPR 2000, section 3.
BLURRED_BELOW = 30.0


def measured(picture: Image.Image) -> tuple[tuple[str, ...], str]:
    """What deserves a second look in an upright sRGB picture, and its hash: 64 bits as 16
    hexadecimal digits, of the signs of neighbours' differences (dHash)."""
    grey = fitted(picture, WORKING_SIDE).convert("L")
    return _doubts(np.asarray(grey, np.float32)), str(imagehash.dhash(grey))


def _doubts(grey: NDArray[np.float32]) -> tuple[str, ...]:
    found = []
    if float(np.median(grey)) < DARK_BELOW:
        found.append(DARK)
    if laplacian_variance(grey) < BLURRED_BELOW:
        found.append(BLURRED)
    return tuple(found)


def laplacian_variance(grey: NDArray[np.float32]) -> float:
    """The variance of the discrete Laplacian (four neighbours) of levels 0 to 255."""
    if min(grey.shape) < 3:
        return 0.0
    middle = grey[1:-1, 1:-1]
    around = grey[:-2, 1:-1] + grey[2:, 1:-1] + grey[1:-1, :-2] + grey[1:-1, 2:]
    return float(np.var(around - 4 * middle))
