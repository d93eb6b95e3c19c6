"""All figures that guard the decoding of strangers' pictures, with their reasons."""

MIB = 1024 * 1024

# A decoded pixel costs up to 4 bytes, several times over while it is turned and scaled: 64 million
# fit into the child's memory. JPEG can be decoded at a half, a quarter or an eighth of its size.
MOST_PIXELS = 64_000_000
MOST_PIXELS_JPEG = 200_000_000
LONGEST_SIDE = 30_000

# What the child process that decodes may use; the kernel ends it where it wants more.
CHILD_MEMORY_BYTES = 1536 * MIB
CHILD_CPU_SECONDS = 20
CHILD_WALL_SECONDS = 30
LONGEST_WAIT_SECONDS = 45  # for a place among the pictures looked at; then "try again later"

# So many such processes beside one another, whatever number of people send at once: a photo takes
# half a second, and two of the largest pictures still fit into the memory of a small server.
CHILDREN_AT_ONCE = 2

# A JPEG is decoded at a half, a quarter or an eighth of its size where this many times the wanted
# side remains. Against scaling the whole by Lanczos that is 48 dB (PSNR) and a sixth of the time.
DRAFT_MARGIN = 1

# A cut picture is decoded larger, so that its part has pixels enough, but not larger than this: the
# smallest parts of the largest pictures then come out a little smaller than they could.
LONGEST_BEFORE_CUT = 8000

LONGEST_REQUEST = 64 * 1024  # characters of one request to the child
