"""The command that opens the reading room; what does the work is imported only once it runs."""

import secrets
from pathlib import Path
from typing import Annotated

import typer

from hikite.cli.archiving import ArchiveOption


def add_to(app: typer.Typer) -> None:
    """Put this command on the command line."""
    app.command()(room)


def room(
    archive: ArchiveOption,
    port: Annotated[int, typer.Option("--port", min=0, max=65_535, help="Port; 0 for any free one.")] = 8173,
    read_only: Annotated[bool, typer.Option("--read-only", help="Take no decisions.")] = False,
    media: Annotated[
        list[Path] | None,
        typer.Option("--media", help="A folder in which media files may lie besides.", show_default=False),
    ] = None,
    aliases: Annotated[
        Path | None,
        typer.Option("--aliases", help="Where corrected names go: ARCHIVE.aliases.toml.", show_default=False),
    ] = None,
    open_to: Annotated[
        str | None,
        typer.Option("--open-to", help="An address to bind to instead of 127.0.0.1; asks for a token."),
    ] = None,
    name: Annotated[
        list[str] | None,
        typer.Option("--name", help="With --open-to: a host name the room goes by.", show_default=False),
    ] = None,
    token: Annotated[
        str | None,
        typer.Option("--token", envvar="HIKITE_TOKEN", help="The token to ask for.", show_default=False),
    ] = None,
) -> None:
    """Open the reading room: read, search and correct an archive in the browser. Ctrl-C closes it."""
    try:
        import uvicorn

        from hikite.web import Arrangement, reading_room
    except ModuleNotFoundError as error:
        raise typer.BadParameter(f"the reading room needs {error.name}: pip install 'hikite[room]'") from None

    if name and open_to is None:
        raise typer.BadParameter("a name is for a room that is open to others", param_hint="--name")
    made = Arrangement(
        archive=archive, address=open_to or "127.0.0.1", port=port, names=tuple(name or ()),
        token=token, media=tuple(media or ()), read_only=read_only, aliases=aliases,
    )  # fmt: skip
    if not made.local and not made.token:
        made = made.model_copy(update={"token": secrets.token_urlsafe(24)})
    if not archive.exists():
        from hikite.archive.errors import ArchiveError

        raise ArchiveError(
            "no archive here; `hikite keep FOLDER --archive FILE` makes one", file=str(archive)
        )
    server = uvicorn.Server(
        uvicorn.Config(reading_room(made), made.address, port, log_level="warning", server_header=False)
    )
    serve(server, made.token if not made.local or token else None)


def serve(server: object, token: str | None) -> None:
    """Bind, tell the address, serve to the end."""
    import uvicorn

    assert isinstance(server, uvicorn.Server)
    socket = server.config.bind_socket()
    # From here on a browser may come: it waits until all is read.
    socket.listen()
    host, port = socket.getsockname()[:2]
    typer.echo(f"The reading room is open: http://{f'[{host}]' if ':' in host else host}:{port}/")
    if token:
        typer.echo(f"Token: {token}")
        typer.echo("What is read here is not encrypted on its way; who can listen in can read along.")
    server.run(sockets=[socket])
