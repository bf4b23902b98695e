"""Settings of the site, from the environment where they differ by place."""

import os
from importlib.util import find_spec
from pathlib import Path

import django_stubs_ext
import environ
from csp.constants import NONE, SELF
from django.core.management.utils import get_random_secret_key

django_stubs_ext.monkeypatch()  # generic forms and admins need it at run time
# numpy's arithmetic of large tables takes more room on several threads than a server's
# thread has, and ends the process; it asks for this before it is first loaded.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

BASE_DIR = Path(__file__).resolve().parent.parent
DATA_DIR = BASE_DIR / ".data"
DATA_DIR.mkdir(exist_ok=True)

env = environ.Env()

DEBUG = env.bool("DEBUG", default=False)
SITE_URL = env.str("SITE_URL", default="http://localhost:8000").rstrip("/")
ALLOWED_HOSTS = env.list("ALLOWED_HOSTS", default=["localhost", "127.0.0.1", "[::1]"])


def _kept_secret() -> str:
    """Return the key kept beside the database, made on first use."""
    kept = DATA_DIR / "secret_key"
    if not kept.exists():
        kept.touch(mode=0o600)
        kept.write_text(get_random_secret_key() + get_random_secret_key())
    return kept.read_text()


SECRET_KEY = env.str("SECRET_KEY", default="") or _kept_secret()

INSTALLED_APPS = [
    "starting.apps.StartingConfig",
    "fitting.apps.FittingConfig",
    "django.contrib.admin",
    "django.contrib.auth",
    "django.contrib.contenttypes",
    "django.contrib.sessions",
    "django.contrib.messages",
    "starting.apps.LeanStaticFilesConfig",
    "django.forms",  # the templates of its widgets, for our own renderer
    "django_htmx",
    "simple_history",
    "axes",
]

MIDDLEWARE = [
    "django.middleware.security.SecurityMiddleware",
    "starting.middleware.CalendarMiddleware",
    "whitenoise.middleware.WhiteNoiseMiddleware",
    "csp.middleware.CSPMiddleware",
    "django.contrib.sessions.middleware.SessionMiddleware",
    "django.middleware.common.CommonMiddleware",
    "django.middleware.csrf.CsrfViewMiddleware",
    "django.contrib.auth.middleware.AuthenticationMiddleware",
    "django.contrib.auth.middleware.LoginRequiredMiddleware",
    "django.contrib.messages.middleware.MessageMiddleware",
    "django.middleware.clickjacking.XFrameOptionsMiddleware",
    "django_htmx.middleware.HtmxMiddleware",
    "simple_history.middleware.HistoryRequestMiddleware",
    "fitting.middleware.YardMiddleware",
    "starting.middleware.PlannedMiddleware",
    "axes.middleware.AxesMiddleware",
]

ROOT_URLCONF = "starting.urls"
WSGI_APPLICATION = "starting.wsgi.application"

TEMPLATES = [
    {
        "BACKEND": "django.template.backends.django.DjangoTemplates",
        "DIRS": [BASE_DIR / "templates"],
        "APP_DIRS": True,
        "OPTIONS": {
            "context_processors": [
                "django.template.context_processors.request",
                "django.contrib.auth.context_processors.auth",
                "django.contrib.messages.context_processors.messages",
            ],
        },
    },
]
FORM_RENDERER = "fitting.forms.YardFormRenderer"

DATABASES = {
    "default": env.db_url(
        "DATABASE_URL", default=f"sqlite:///{DATA_DIR / 'yard.sqlite3'}"
    )
}
if DATABASES["default"]["ENGINE"] == "django.db.backends.sqlite3":
    DATABASES["default"]["OPTIONS"] = {
        "transaction_mode": "IMMEDIATE",
        "timeout": 20,
        "init_command": "PRAGMA journal_mode=WAL; PRAGMA synchronous=NORMAL;",
    }
else:
    DATABASES["default"]["CONN_MAX_AGE"] = 60

DEFAULT_AUTO_FIELD = "django.db.models.BigAutoField"

AUTHENTICATION_BACKENDS = [
    "axes.backends.AxesStandaloneBackend",
    "django.contrib.auth.backends.ModelBackend",
]
PASSWORD_HASHERS = [
    "django.contrib.auth.hashers.Argon2PasswordHasher",
    "django.contrib.auth.hashers.PBKDF2PasswordHasher",
]
AUTH_PASSWORD_VALIDATORS = [
    {"NAME": f"django.contrib.auth.password_validation.{name}"}
    for name in (
        "UserAttributeSimilarityValidator",
        "MinimumLengthValidator",
        "CommonPasswordValidator",
        "NumericPasswordValidator",
    )
]
LOGIN_URL = "sign-in"
LOGIN_REDIRECT_URL = "yards"
LOGOUT_REDIRECT_URL = "sign-in"
AXES_FAILURE_LIMIT = 6
AXES_COOLOFF_TIME = 1  # hours
AXES_RESET_ON_SUCCESS = True
AXES_LOCKOUT_PARAMETERS = [["username", "ip_address"]]
AXES_LOCKOUT_TEMPLATE = "locked_out.html"
AXES_VERBOSE = False

LANGUAGE_CODE = "en-gb"
TIME_ZONE = "UTC"
USE_I18N = False
USE_TZ = True

STATIC_URL = "/static/"
STATIC_ROOT = BASE_DIR / ".static"
STATIC_ROOT.mkdir(exist_ok=True)


def _bootstrap_css() -> Path:
    """Return the folder of Bootstrap's own stylesheets, as its package holds it."""
    spec = find_spec("bootstrap")
    if spec is None or not spec.submodule_search_locations:
        raise ModuleNotFoundError("bootstrap-wrapper is not installed")
    return Path(next(iter(spec.submodule_search_locations))) / "css"


WHITENOISE_USE_FINDERS = env.bool("STATIC_FROM_PACKAGES", default=DEBUG)
STATICFILES_DIRS = [("bootstrap", _bootstrap_css())]
STORAGES = {
    "default": {"BACKEND": "django.core.files.storage.FileSystemStorage"},
    "staticfiles": {
        "BACKEND": "django.contrib.staticfiles.storage.StaticFilesStorage"
        if WHITENOISE_USE_FINDERS
        else "whitenoise.storage.CompressedManifestStaticFilesStorage"
    },
}
MEDIA_ROOT = DATA_DIR / "photos"  # beside no address: a view asks who may see one
FILE_UPLOAD_PERMISSIONS = 0o600
FILE_UPLOAD_DIRECTORY_PERMISSIONS = 0o700
FILE_UPLOAD_HANDLERS = [
    "fitting.forms.uploads.BoundedUpload",
    "django.core.files.uploadhandler.MemoryFileUploadHandler",
    "django.core.files.uploadhandler.TemporaryFileUploadHandler",
]
EMAIL_BACKEND = env.str(
    "EMAIL_BACKEND", default="django.core.mail.backends.console.EmailBackend"
)
DEFAULT_FROM_EMAIL = env.str("DEFAULT_FROM_EMAIL", default="longrein@localhost")

CONTENT_SECURITY_POLICY = {
    "DIRECTIVES": {
        "default-src": [NONE],
        "script-src": [SELF],
        "style-src": [SELF],
        "img-src": [SELF, "data:"],
        "font-src": [SELF],
        "connect-src": [SELF],
        "manifest-src": [SELF],
        "form-action": [SELF],
        "base-uri": [NONE],
        "frame-ancestors": [NONE],
    }
}
SECURE_REFERRER_POLICY = "same-origin"
X_FRAME_OPTIONS = "DENY"
SESSION_COOKIE_AGE = 60 * 60 * 24 * 60
SESSION_COOKIE_HTTPONLY = True
CSRF_COOKIE_HTTPONLY = True

HTTPS = SITE_URL.startswith("https://")
SESSION_COOKIE_SECURE = HTTPS
CSRF_COOKIE_SECURE = HTTPS
SECURE_SSL_REDIRECT = HTTPS
SECURE_PROXY_SSL_HEADER = ("HTTP_X_FORWARDED_PROTO", "https") if HTTPS else None
SECURE_HSTS_SECONDS = 60 * 60 * 24 * 365 if HTTPS else 0
SECURE_HSTS_INCLUDE_SUBDOMAINS = HTTPS
SECURE_HSTS_PRELOAD = HTTPS

# The framework's own handlers would print calendar links: all goes through ours.
LOGGING = {
    "version": 1,
    "disable_existing_loggers": False,
    "formatters": {"no_keys": {"()": "starting.apps.WithoutCalendarKeys"}},
    "handlers": {"console": {"class": "logging.StreamHandler", "formatter": "no_keys"}},
    "root": {"handlers": ["console"], "level": "WARNING"},
    "loggers": {
        "axes": {"level": "ERROR"},
        "django": {"level": "INFO" if DEBUG else "WARNING", "handlers": []},
        "django.server": {"level": "INFO", "handlers": [], "propagate": True},
    },
}
