"""Settings of the site; every value a server keeper may change comes from the environment."""

from pathlib import Path
from urllib.parse import urlsplit

import bootstrap
from csp.constants import NONE, SELF

from gallery import environment

CHECKOUT = environment.CHECKOUT
DATA_DIR = environment.data_folder()
SECRET_KEY = environment.secret_key(DATA_DIR)
DEBUG = environment.is_on("GALLERY_DEBUG")

# Links in letters and QR codes start with this address, never with what a request claims.
BASE_URL = environment.text("GALLERY_BASE_URL", "http://127.0.0.1:8000").rstrip("/")
IS_SECURE = BASE_URL.startswith("https://")
ALLOWED_HOSTS = [urlsplit(BASE_URL).hostname or "127.0.0.1"]
if not IS_SECURE:
    ALLOWED_HOSTS += ["127.0.0.1", "localhost", "[::1]", "testserver"]
# The web server in front that speaks TLS; what it says of the visitor is believed.
PROXY = environment.text("GALLERY_PROXY", "127.0.0.1" if IS_SECURE else "")
SITE_NAME = environment.text("GALLERY_SITE_NAME", "The Finishing Shelf")
BACKUP_DAYS = environment.number("GALLERY_BACKUP_DAYS", 30)
CONTACT_EMAIL = environment.text("GALLERY_CONTACT_EMAIL", "teacher@example.org")

INSTALLED_APPS = [
    "django.contrib.auth",
    "django.contrib.contenttypes",
    "django.contrib.sessions",
    "django.contrib.messages",
    "whitenoise.runserver_nostatic",
    "django.contrib.staticfiles",
    "django.forms",
    "crispy_forms",
    "crispy_bootstrap5",
    "csp",
    "django_htmx",
    "django_q",
    "gallery",
    "alterations.records",
    "gallery.series",
    "gallery.consent",
    "gallery.contributions",
    "gallery.review",
    "gallery.exhibition",
    "gallery.album",
]

MIDDLEWARE = [
    "django.middleware.security.SecurityMiddleware",
    "whitenoise.middleware.WhiteNoiseMiddleware",
    "csp.middleware.CSPMiddleware",
    # Before anything reads the body: the CSRF check below would read all of it.
    "gallery.access.RefuseHugeRequests",
    "django.contrib.sessions.middleware.SessionMiddleware",
    "django.middleware.locale.LocaleMiddleware",
    "django.middleware.common.CommonMiddleware",
    "django.middleware.csrf.CsrfViewMiddleware",
    "django.contrib.auth.middleware.AuthenticationMiddleware",
    "django.contrib.messages.middleware.MessageMiddleware",
    "django.middleware.clickjacking.XFrameOptionsMiddleware",
    "django_htmx.middleware.HtmxMiddleware",
]

ROOT_URLCONF = "gallery.urls"
WSGI_APPLICATION = "gallery.wsgi.application"
TEMPLATES = [
    {
        "BACKEND": "django.template.backends.django.DjangoTemplates",
        "DIRS": [CHECKOUT / "templates"],
        "APP_DIRS": True,
        "OPTIONS": {
            "context_processors": [
                "django.template.context_processors.request",
                "django.contrib.auth.context_processors.auth",
                "django.contrib.messages.context_processors.messages",
                "gallery.access.site",
            ],
        },
    },
]
FORM_RENDERER = "django.forms.renderers.TemplatesSetting"
CRISPY_ALLOWED_TEMPLATE_PACKS = "bootstrap5"
CRISPY_TEMPLATE_PACK = "bootstrap5"

# One small machine first: SQLite in its safest mode (https://sqlite.org/wal.html, pragma.html).
DATABASES = {
    "default": {
        "ENGINE": "django.db.backends.sqlite3",
        "NAME": DATA_DIR / "site.sqlite3",
        "OPTIONS": {
            "timeout": 20,
            "transaction_mode": "IMMEDIATE",
            "init_command": (
                "PRAGMA journal_mode=WAL; PRAGMA synchronous=FULL; PRAGMA foreign_keys=ON;"
            ),
        },
    }
}
if environment.text("GALLERY_POSTGRES"):
    # Several machines later: GALLERY_POSTGRES names the database, PG* variables say how to reach it
    # (https://www.postgresql.org/docs/current/libpq-envars.html).
    DATABASES["default"] = {
        "ENGINE": "django.db.backends.postgresql",
        "NAME": environment.text("GALLERY_POSTGRES"),
    }
DEFAULT_AUTO_FIELD = "django.db.models.BigAutoField"

# Jobs wait in the database; a job whose worker died is taken up again after `retry` seconds.
# Every job is a short step (well under `timeout`) that may safely run twice.
Q_CLUSTER = {
    "name": "gallery",
    "orm": "default",
    "workers": environment.number("GALLERY_WORKERS", 2),
    "queue_limit": 2,
    "bulk": 1,
    "timeout": 120,
    "retry": 150,
    "max_attempts": 5,
    "ack_failures": False,
    "catch_up": False,
    "poll": 0.5,
    "save_limit": 250,
    "log_level": "WARNING",
}
if environment.text("GALLERY_REDIS"):
    Q_CLUSTER["redis"] = environment.text("GALLERY_REDIS")
    Q_CLUSTER["orm"] = None

# The site's own language: of addresses that name none, of films, and of letters to people whose
# language is not known. The other languages stand in the address: /de/…
LANGUAGES = [("en-gb", "English"), ("de", "Deutsch")]
LANGUAGE_CODE = environment.choice("GALLERY_LANGUAGE", [code for code, _ in LANGUAGES])
LOCALE_PATHS = [CHECKOUT / "gallery" / "locale"]
FORMAT_MODULE_PATH = "gallery.formats"
TIME_ZONE = environment.text("GALLERY_TIME_ZONE", "UTC")
USE_I18N = True
USE_TZ = True

STATIC_URL = "/static/"
STATIC_ROOT = DATA_DIR / "static"
STATICFILES_DIRS = [
    ("bootstrap", Path(next(iter(bootstrap.__path__)))),
]
STORAGES = {
    "default": {"BACKEND": "django.core.files.storage.FileSystemStorage"},
    "staticfiles": {"BACKEND": "whitenoise.storage.CompressedManifestStaticFilesStorage"},
}
MEDIA_ROOT = DATA_DIR / "media"  # Outside any web root: nothing below it has an address.
ORIGINALS_DIR = MEDIA_ROOT / "originals"
PICTURES_DIR = MEDIA_ROOT / "pictures"
FILMS_DIR = MEDIA_ROOT / "films"
SEGMENTS_DIR = MEDIA_ROOT / "segments"

# The film's size in pixels and its frames a second.
FILM_WIDTH, FILM_HEIGHT, FILM_FPS = 1920, 1080, 30

# What a person may send at once (documented in DEVELOPERS.md).
UPLOAD_MAX_PICTURE_BYTES = 40 * 1024 * 1024
UPLOAD_MAX_PICTURES = 12
UPLOAD_MAX_GARMENT_BYTES = 500 * 1024 * 1024
UPLOAD_MAX_REQUEST_BYTES = 200 * 1024 * 1024
FILE_UPLOAD_HANDLERS = ["gallery.contributions.uploads.MeasuredUpload"]
FILE_UPLOAD_TEMP_DIR = DATA_DIR / "arriving"  # On the same disk, so that keeping is a rename.
FILE_UPLOAD_TEMP_DIR.mkdir(mode=0o750, exist_ok=True)
FILE_UPLOAD_PERMISSIONS = 0o640
DATA_UPLOAD_MAX_NUMBER_FILES = 60
# A large pattern in the editor has a few thousand fields: 30 pieces of 40 sections at most.
DATA_UPLOAD_MAX_NUMBER_FIELDS = 20_000

LOGIN_URL = "login"
LOGIN_REDIRECT_URL = "desk"
LOGOUT_REDIRECT_URL = "front"
AUTH_PASSWORD_VALIDATORS = [
    {"NAME": "django.contrib.auth.password_validation.MinimumLengthValidator"},
    {"NAME": "django.contrib.auth.password_validation.CommonPasswordValidator"},
]
SESSION_COOKIE_AGE = 12 * 60 * 60
SESSION_SAVE_EVERY_REQUEST = False

CONTENT_SECURITY_POLICY = {
    "DIRECTIVES": {
        "default-src": [NONE],
        "script-src": [SELF],
        "style-src": [SELF],
        "img-src": [SELF, "blob:"],
        "connect-src": [SELF],
        "media-src": [SELF],
        "form-action": [SELF],
        "frame-ancestors": [NONE],
        "base-uri": [NONE],
        "object-src": [NONE],
    }
}
X_FRAME_OPTIONS = "DENY"
SECURE_CONTENT_TYPE_NOSNIFF = True
SECURE_REFERRER_POLICY = "same-origin"
SECURE_CROSS_ORIGIN_OPENER_POLICY = "same-origin"
SESSION_COOKIE_HTTPONLY = True
CSRF_COOKIE_HTTPONLY = True
if IS_SECURE:
    SECURE_SSL_REDIRECT = True
    SECURE_HSTS_SECONDS = 365 * 24 * 60 * 60
    SECURE_HSTS_INCLUDE_SUBDOMAINS = True
    SECURE_HSTS_PRELOAD = True
    SESSION_COOKIE_SECURE = True
    CSRF_COOKIE_SECURE = True
    SESSION_COOKIE_NAME = "__Host-session"
    CSRF_COOKIE_NAME = "__Host-csrf"
    CSRF_TRUSTED_ORIGINS = [BASE_URL]

EMAIL_HOST = environment.text("GALLERY_SMTP_HOST")
EMAIL_PORT = environment.number("GALLERY_SMTP_PORT", 587)
EMAIL_HOST_USER = environment.text("GALLERY_SMTP_USER")
EMAIL_HOST_PASSWORD = environment.text("GALLERY_SMTP_PASSWORD")
EMAIL_USE_TLS = EMAIL_PORT == 587
EMAIL_TIMEOUT = 20
# On a public site nothing is printed: a letter holds an address and a private link.
POSTS_LETTERS = bool(EMAIL_HOST) or not IS_SECURE
_WITHOUT_HOST = "dummy" if IS_SECURE else "console"
EMAIL_BACKEND = f"django.core.mail.backends.{'smtp' if EMAIL_HOST else _WITHOUT_HOST}.EmailBackend"
DEFAULT_FROM_EMAIL = environment.text("GALLERY_LETTERS_FROM", CONTACT_EMAIL)

LOGGING = {
    "version": 1,
    "disable_existing_loggers": False,
    "formatters": {"line": {"format": "{asctime} {levelname} {name}: {message}", "style": "{"}},
    "filters": {"hide_tokens": {"()": "gallery.logs.HideTokens"}},
    "handlers": {
        "console": {
            "class": "logging.StreamHandler",
            "formatter": "line",
            "filters": ["hide_tokens"],
        },
    },
    "root": {"handlers": ["console"], "level": "WARNING"},
}
