"""Every setting in one place, read from the environment or a `.env` file.

Nothing else reads the environment. Malformed settings end the program with one clear sentence.
"""

from __future__ import annotations

import hashlib
import hmac
import re
from datetime import UTC, datetime
from functools import cached_property
from pathlib import Path
from typing import Annotated
from urllib.parse import quote

from pydantic import Field, SecretStr, ValidationError, field_validator
from pydantic_settings import BaseSettings, NoDecode, SettingsConfigDict
from sqlalchemy.engine import make_url
from sqlalchemy.exc import ArgumentError


class SettingsUnusable(Exception):
    """Raised when a setting is missing or cannot be read; the message says which and how."""


class Settings(BaseSettings):
    """Settings; the name of each in the environment is ``SOILBELL_`` and its own in capitals."""

    model_config = SettingsConfigDict(
        env_prefix="SOILBELL_",
        env_file=".env",
        # A line left empty in .env.example's copy means the default.
        env_ignore_empty=True,
        frozen=True,
        extra="ignore",
    )

    database_url: str = Field(
        "sqlite:///soilbell.sqlite3",
        description="Where data is kept: sqlite:///FILE or postgresql+psycopg://USER@HOST/NAME.",
    )
    token: SecretStr | None = Field(
        None, description="The bot's token, from the chat platform's own account bot."
    )
    admin_ids: Annotated[frozenset[int], NoDecode] = Field(
        frozenset(), description="Chat ids told of trouble, separated by commas."
    )
    platform_url: str = Field(
        "https://api.telegram.org/bot", description="Base of the chat platform's API."
    )
    source: str = Field(
        "open-meteo", description="Weather: open-meteo, nws, simulated or recorded:PATH."
    )
    contact: str = Field(
        "",
        description="Address at which the weather services may reach you; live weather needs one.",
    )
    compare_sources: bool = Field(
        False, description="Ask nws beside open-meteo each day, so that a difference is told."
    )
    weather_key: SecretStr | None = Field(
        None, description="Key of a paying customer of open-meteo, if you have one."
    )
    forecast_url: str = Field(
        "https://api.open-meteo.com/v1/forecast", description="Base of the forecast service."
    )
    archive_url: str = Field(
        "https://archive-api.open-meteo.com/v1/archive", description="Base of the archive."
    )
    nws_url: str = Field("https://api.weather.gov", description="Base of the US weather service.")
    pictures_folder: Path | None = Field(
        None, description="Where photos, pictures and exports are; default: beside the database."
    )
    platform_timeout_s: float = Field(
        10.0, ge=0.2, le=120, description="Seconds to wait for each answer of the chat platform."
    )
    clock_rate: float = Field(
        1.0,
        gt=0,
        le=10_000_000,
        description="For demonstrations on simulated or recorded weather: how many times faster "
        "than the wall the clock runs; 1440 is a day a minute. Refused with live weather.",
    )
    clock_start: datetime | None = Field(
        None,
        description="For demonstrations likewise: where the clock of a new database starts, such "
        "as 2026-02-15T08:00 (UTC where no offset is given).",
    )
    keep_unread: bool = Field(
        False,
        description="Keep texts that were not understood, without names, places and numbers, of "
        "chats that agree; `soilbell heard` shows them.",
    )
    webhook_url: str | None = Field(
        None,
        description="Public https address at which the chat platform brings updates to bot and "
        "run, which lets several answer at once; default: they are fetched, by one alone.",
    )
    webhook_listen: str = Field(
        "127.0.0.1:8080",
        description="Where to listen for them behind the proxy that ends TLS; /health tells there "
        "whether they can be taken.",
    )
    health: str | None = Field(
        None,
        description="Where to tell over HTTP how the machine fares, as 127.0.0.1:8090; default: "
        "nowhere. Nobody but you should reach it.",
    )
    metrics: bool = Field(
        False, description="Tell it there for Prometheus too, under /metrics: true or false."
    )
    log_level: str = Field("INFO", description="How much is logged: DEBUG, INFO, WARNING, ERROR.")

    @field_validator("admin_ids", mode="before")
    @classmethod
    def _split(cls, value: object) -> object:
        if isinstance(value, str):
            parts = [part for part in value.replace(" ", "").split(",") if part]
            if not all(re.fullmatch(r"-?\d+", part) for part in parts):
                raise ValueError("it is numbers separated by commas")
            return frozenset(int(part) for part in parts)
        return value

    @field_validator("database_url")
    @classmethod
    def _is_database(cls, value: str) -> str:
        try:
            backend = make_url(value).get_backend_name()
        except ArgumentError:
            backend = None
        if backend not in ("sqlite", "postgresql"):
            raise ValueError("it begins with sqlite:/// or postgresql+psycopg://")
        return value

    @field_validator("platform_url")
    @classmethod
    def _is_platform(cls, value: str) -> str:
        if re.fullmatch(r"https?://[^/\s]+(/[^\s?#]*)?/bot", value) is None:
            raise ValueError("it is an address that ends in /bot")
        return value

    @field_validator("clock_start")
    @classmethod
    def _in_utc(cls, value: datetime | None) -> datetime | None:
        if value is None:
            return None
        return value.replace(tzinfo=UTC) if value.tzinfo is None else value.astimezone(UTC)

    @field_validator("log_level")
    @classmethod
    def _is_level(cls, value: str) -> str:
        if value.upper() not in ("DEBUG", "INFO", "WARNING", "ERROR"):
            raise ValueError("it is DEBUG, INFO, WARNING or ERROR")
        return value.upper()

    @field_validator("webhook_url")
    @classmethod
    def _is_public(cls, value: str | None) -> str | None:
        if value is not None and re.fullmatch(r"https://[^/\s]+/[^\s?#]+", value) is None:
            raise ValueError("it is an https address with a path, as https://bot.example.org/turf")
        return value

    @field_validator("health", "webhook_listen")
    @classmethod
    def _is_address(cls, value: str | None) -> str | None:
        if value is not None and re.fullmatch(r"[\w.-]+:\d{1,5}", value) is None:
            raise ValueError("it is a host and a port, as 127.0.0.1:8090")
        return value

    @property
    def health_address(self) -> tuple[str, int] | None:
        """Host and port on which health is told, or None."""
        return None if self.health is None else _address(self.health)

    @property
    def webhook_address(self) -> tuple[str, int]:
        """Host and port on which updates are taken."""
        return _address(self.webhook_listen)

    @property
    def secrets(self) -> frozenset[str]:
        """What must never be written anywhere."""
        texts = set()
        if self.token is not None:
            token = self.token.get_secret_value().strip()
            # The part before the colon is the bot's public number.
            texts |= {token, quote(token, safe=""), token.partition(":")[2], self.webhook_secret}
        if self.weather_key is not None:
            texts.add(self.weather_key.get_secret_value())
        password = make_url(self.database_url).password
        if password:
            texts |= {str(password), quote(str(password), safe="")}
        return frozenset(text for text in texts if text)

    @property
    def webhook_secret(self) -> str:
        """What the platform sends along with updates: the same in every process of this token."""
        token = "" if self.token is None else self.token.get_secret_value().strip()
        return hmac.new(token.encode(), b"soilbell webhook", hashlib.sha256).hexdigest()

    @property
    def pictures(self) -> Path:
        """Where photos, pictures and exports are kept."""
        return self.pictures_folder or pictures_beside(self.database_url)

    @cached_property
    def token_text(self) -> str:
        """The token itself.

        Raises
        ------
        SettingsUnusable
            If there is none, or it is none.
        """
        if self.token is None or not self.token.get_secret_value().strip():
            raise SettingsUnusable(
                "No bot token. Set SOILBELL_TOKEN in the environment or in .env "
                "(see the README, 'Your own bot in ten minutes')."
            )
        token = self.token.get_secret_value().strip()
        if re.fullmatch(r"\d+:[A-Za-z0-9_-]{20,}", token) is None:
            raise SettingsUnusable(
                "SOILBELL_TOKEN is no bot token: digits, a colon, then some 35 letters, digits, "
                "- and _. Copy it whole from the platform's account bot."
            )
        return token


def _address(text: str) -> tuple[str, int]:
    host, _, port = text.rpartition(":")
    return host, int(port)


def pictures_beside(database_url: str) -> Path:
    """Return the folder for pictures beside a database file, or here where it is no file."""
    url = make_url(database_url)
    is_file = url.get_backend_name() == "sqlite" and url.database
    beside = Path(str(url.database)).parent if is_file else Path()
    return beside / "pictures"


def load() -> Settings:
    """Return the settings.

    Raises
    ------
    SettingsUnusable
        With one sentence about the first setting that cannot be read.
    """
    try:
        return Settings()
    except ValidationError as error:
        first = error.errors()[0]
        name = "_".join(str(part) for part in first["loc"]).upper()
        problem = first["msg"].removeprefix("Value error, ")
        raise SettingsUnusable(f"SOILBELL_{name} cannot be read: {problem}.") from None
