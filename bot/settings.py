"""Every setting in one place, read from the environment or a `.env` file.

Nothing else reads the environment. Malformed settings end the program with one clear sentence.
"""

from __future__ import annotations

from functools import cached_property
from pathlib import Path
from typing import Annotated

from pydantic import Field, SecretStr, ValidationError, field_validator
from pydantic_settings import BaseSettings, NoDecode, SettingsConfigDict


class SettingsUnusable(Exception):
    """Raised when a setting is missing or cannot be read; the message says which and how."""


class Settings(BaseSettings):
    """Settings; the name of each in the environment is ``SOILBELL_`` and its own in capitals."""

    model_config = SettingsConfigDict(
        env_prefix="SOILBELL_", env_file=".env", frozen=True, extra="ignore"
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
        "", description="Address at which the weather services may reach you; nws needs one."
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
        None, description="Where photos and pictures are kept; default: beside the database."
    )
    log_level: str = Field("INFO", description="How much is logged: DEBUG, INFO, WARNING, ERROR.")

    @field_validator("admin_ids", mode="before")
    @classmethod
    def _split(cls, value: object) -> object:
        if isinstance(value, str):
            return frozenset(int(part) for part in value.replace(" ", "").split(",") if part)
        return value

    @cached_property
    def token_text(self) -> str:
        """The token itself.

        Raises
        ------
        SettingsUnusable
            If there is none.
        """
        if self.token is None or not self.token.get_secret_value().strip():
            raise SettingsUnusable(
                "No bot token. Set SOILBELL_TOKEN in the environment or in .env "
                "(see the README, 'Your own bot in ten minutes')."
            )
        return self.token.get_secret_value().strip()


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
        raise SettingsUnusable(f"SOILBELL_{name} cannot be read: {first['msg']}.") from None
