"""The site's settings, for the tests: a plain address, quick passwords."""

import os
import tempfile
from pathlib import Path

os.environ.setdefault("SITE_URL", "http://testserver")
os.environ.setdefault("SECRET_KEY", "only-for-the-tests-" + "x" * 50)
os.environ.setdefault("DJANGO_ALLOW_ASYNC_UNSAFE", "true")  # browser tests

from starting.settings import *  # noqa: F403 - the environment comes first
from starting.settings import DATABASES, INSTALLED_APPS, STORAGES
from tests.clock import hold_the_day

hold_the_day()
DATABASES["default"]["CONN_MAX_AGE"] = 0  # a browser's server leaves none open
ALLOWED_HOSTS = ["*"]
# By its own name: then the browser's server finds styles and scripts where they lie.
INSTALLED_APPS = [
    "django.contrib.staticfiles" if app.endswith("StaticFilesConfig") else app
    for app in INSTALLED_APPS
]
PASSWORD_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]
STORAGES = {
    **STORAGES,
    "staticfiles": {"BACKEND": "django.contrib.staticfiles.storage.StaticFilesStorage"},
}
MEDIA_ROOT = Path(tempfile.mkdtemp(prefix="longrein-photos-"))
EMAIL_BACKEND = "django.core.mail.backends.locmem.EmailBackend"
