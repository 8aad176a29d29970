"""Settings of the program, not of a hall: flag, then environment, then file, then default.

`ROUNDWRIGHT_PORT=9000` in the environment, `port = 9000` in `settings.toml` of the
data folder. Halls, plans and accounts are kept in a database; without an address it is a file in
the data folder.
"""

import os
from collections.abc import Mapping
from ipaddress import ip_address
from pathlib import Path
from typing import Any, ClassVar, Literal

from platformdirs import user_data_path
from pydantic import Field, ValidationError
from pydantic_settings import (
    BaseSettings,
    PydanticBaseSettingsSource,
    SettingsConfigDict,
    TomlConfigSettingsSource,
)

from roundwright.foundation.errors import BadInputError
from roundwright.foundation.faults import HIDDEN, Fault, shortened

SETTINGS_FILE = "settings.toml"
DATABASE_FILE = "roundwright.db"


class Settings(BaseSettings):
    """What the program itself needs to know."""

    model_config = SettingsConfigDict(env_prefix="ROUNDWRIGHT_", extra="forbid", frozen=True)
    file: ClassVar[Path | None] = None

    data_dir: Path = Field(default_factory=lambda: user_data_path("roundwright"))
    database_url: str = Field(
        default="", repr=False, description="empty: a SQLite file in the data folder"
    )
    host: str = Field(
        default="127.0.0.1",
        description="a loopback address, or another one once the house has an owner",
    )
    port: int = Field(default=8737, ge=1, le=65_535)
    public_url: str = Field(default="", description="the address printed; empty: host and port")
    tls_cert: Path | None = None
    tls_key: Path | None = None
    log_level: Literal["critical", "error", "warning", "info", "debug"] = "warning"
    solver_workers: Literal[1] = Field(default=1, description="one thread, so that plans repeat")

    @property
    def is_loopback(self) -> bool:
        """Whether only this machine can reach what is served."""
        return self.host == "localhost" or _is_loopback(self.host)

    @property
    def database(self) -> str:
        """The address of the database."""
        file = self.data_dir.absolute() / DATABASE_FILE
        return self.database_url or f"sqlite:///{file.as_posix()}"

    @property
    def address(self) -> str:
        """The address that is printed and opened."""
        if self.public_url:
            return self.public_url
        scheme = "https" if self.tls_cert else "http"
        host = f"[{self.host}]" if ":" in self.host else self.host
        return f"{scheme}://{host}:{self.port}/"

    @classmethod
    def settings_customise_sources(
        cls,
        settings_cls: type[BaseSettings],
        init_settings: PydanticBaseSettingsSource,
        env_settings: PydanticBaseSettingsSource,
        dotenv_settings: PydanticBaseSettingsSource,
        file_secret_settings: PydanticBaseSettingsSource,
    ) -> tuple[PydanticBaseSettingsSource, ...]:
        """Order the sources: flags, environment, the file of the data folder."""
        file = TomlConfigSettingsSource(settings_cls, toml_file=cls.file)
        return init_settings, env_settings, file


def read_settings(flags: Mapping[str, Any]) -> Settings:
    """Read the settings; flags that are None are not given.

    Parameters
    ----------
    flags : mapping
        Names of settings to values from the command line.

    Returns
    -------
    Settings
        What holds now.

    Raises
    ------
    BadInputError
        With each setting that cannot be, wherever it came from.
    """
    given = {name: value for name, value in flags.items() if value is not None}
    folder = given.get("data_dir") or os.environ.get("ROUNDWRIGHT_DATA_DIR")
    path = Path(folder or user_data_path("roundwright")) / SETTINGS_FILE

    class FromFolder(Settings):
        file: ClassVar[Path | None] = path

    try:
        return FromFolder(**given)
    except ValidationError as error:
        raise BadInputError([_fault(e, given) for e in error.errors()]) from error
    except ValueError as error:
        fault = Fault(code="file.syntax", file=str(path), expected=shortened(error, 200))
        raise BadInputError([fault]) from error
    except OSError as error:
        fault = Fault(code="file.missing", file=str(path), expected=shortened(error, 200))
        raise BadInputError([fault]) from error


def host_fault(settings: Settings, expected: str) -> BadInputError:
    """Give the error of a host that cannot be served."""
    return BadInputError(
        [
            Fault(
                code="field.value",
                file="settings",
                field="host",
                value=shortened(settings.host),
                expected=expected,
            )
        ]
    )


def _fault(error: Any, flags: Mapping[str, Any]) -> Fault:
    name = str(error["loc"][0]) if error["loc"] else ""
    variable = f"ROUNDWRIGHT_{name.upper()}"
    source = "flag" if name in flags else variable if variable in os.environ else SETTINGS_FILE
    known = name in Settings.model_fields
    return Fault(
        code="field.value" if known else "field.unknown",
        file=source,
        field=name,
        value=HIDDEN if name == "database_url" else shortened(error["input"]),
        expected=error["msg"].removeprefix("Value error, ") if known else "one of the settings",
    )


def _is_loopback(host: str) -> bool:
    try:
        return ip_address(host).is_loopback
    except ValueError:
        return False
