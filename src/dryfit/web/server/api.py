"""The routes: each reads what was sent, asks the desk, and writes what it answers.

Nothing is decided here. A route runs on the event loop from end to end, so changes come one after the other
without a lock; what takes long goes to the worker and is waited for.
"""

from typing import Annotated, Any

from fastapi import APIRouter, Query, Request, Response

from ...editing import answers, requests
from ...editing.answers import Refusal
from ..service import Service
from .replies import written

_SAYS = {
    401: "The cookie is missing.",
    403: "The page's own origin is missing.",
    404: "There is no such thing.",
    409: "Not as things stand: the base is stale, nothing to undo, slow work not ready, disk full; `code` says which.",
    413: "Too large.",
    421: "Another host was named.",
    422: "Not understood, refused, or a fault of Dryfit; `mistakes` says why.",
    423: "The file may not be written.",
    429: "Too often.",
    500: "A fault of Dryfit that it did not foresee.",
}
# By name, not as `model`: FastAPI would work the shape out anew for each status of each route, at every start.
_REFUSED = {"application/json": {"schema": {"$ref": f"#/components/schemas/{Refusal.__name__}"}}}
REFUSALS: dict[int | str, dict[str, Any]] = {
    status: {"content": _REFUSED, "description": says} for status, says in _SAYS.items()
}


def service_of(request: Request) -> Service:
    """The one service of this server."""
    service: Service = request.app.state.service
    return service


router = APIRouter(prefix="/api", responses=REFUSALS)


@router.get("/state", response_model=answers.State)
async def state(request: Request) -> Response:
    """The whole job as the page shows it."""
    return written(service_of(request).state())


@router.get("/schema", response_model=answers.Schema)
async def schema(request: Request) -> Response:
    """The job file's schema, the joint kinds, the trade's words, the joint marks."""
    return written(service_of(request).schema())


@router.post("/edit", response_model=answers.Changed)
async def edit(request: Request, sent: requests.Change) -> Response:
    """Change the job file; one step of undo."""
    return written(service_of(request).change(sent))


@router.post("/text", response_model=answers.Changed)
async def text(request: Request, sent: requests.TextChange) -> Response:
    """Write the whole text, whether or not it can be read."""
    return written(service_of(request).write(sent))


@router.post("/undo", response_model=answers.Changed)
async def undo(request: Request, sent: requests.EditAsked) -> Response:
    """Take the last change back."""
    return written(service_of(request).undo(sent))


@router.post("/redo", response_model=answers.Changed)
async def redo(request: Request, sent: requests.EditAsked) -> Response:
    """Do again what was taken back."""
    return written(service_of(request).redo(sent))


@router.get("/history", response_model=answers.VersionsKept)
async def history(request: Request, limit: Annotated[int, Query(ge=1, le=10_000)] = 200) -> Response:
    """The job's versions, the newest first."""
    return written(service_of(request).history(limit))


@router.post("/restore", response_model=answers.Changed)
async def restore(request: Request, sent: requests.Restore) -> Response:
    """Back to an earlier version; a step of undo as any other."""
    return written(service_of(request).restore(sent))


@router.post("/drag", response_model=answers.Gripped)
async def drag(request: Request, sent: requests.Grip) -> Response:
    """What a hand can do with what it gripped: where it snaps, and how that may be written."""
    return written(service_of(request).grip(sent))


@router.post("/ways", response_model=answers.Offers)
async def ways(request: Request, sent: requests.WaysAsked) -> Response:
    """In which ways a figure that is worked out may be written, once it is typed."""
    return written(service_of(request).ways(sent))


@router.get("/bays", response_model=answers.Bays)
async def bays(request: Request) -> Response:
    """All clear openings between boards, the largest first."""
    return written(service_of(request).bays())


@router.post("/bay", response_model=answers.BayFound)
async def bay(request: Request, sent: requests.BayAsked) -> Response:
    """One clear opening: what bounds it, what can be typed of it, what can be done with it."""
    return written(service_of(request).bay(sent))


@router.post("/preview", response_model=answers.Previewed)
async def preview(request: Request, sent: requests.Preview) -> Response:
    """What would come of a change; nothing is saved."""
    return written(service_of(request).preview(sent))


@router.get("/card", response_model=answers.Card)
async def card(request: Request, of: Annotated[requests.CardQuery, Query()]) -> Response:
    """The card of a board, a frame, a joint or a fixing; of the job where nothing is named."""
    return written(service_of(request).card(of.card()))


_BINARY: dict[int | str, dict[str, Any]] = {
    200: {"content": {"application/octet-stream": {"schema": {"type": "string", "format": "binary"}}}}
}


@router.get("/model", responses=_BINARY, response_class=Response)
async def model(
    request: Request,
    have: Annotated[list[str] | None, Query(max_length=4000)] = None,
    revision: Annotated[int | None, Query(ge=0, le=2**53)] = None,
) -> Response:
    """The parts' meshes: length of the head (4 bytes, little endian), the head (`ModelHead`), the buffers."""
    data = await service_of(request).model(have or [], revision)
    return Response(data, media_type="application/octet-stream")


@router.get("/study/{name}", response_model=answers.Answered)
async def study(request: Request, name: str) -> Response:
    """The result of one study, such as `order`, as in book.json."""
    return written(service_of(request).answered(name))


@router.post("/study/{name}", response_model=answers.Tried)
async def what_if(request: Request, name: str, sent: requests.WhatIf) -> Response:
    """What one study would find with its levers moved; nothing is saved."""
    return written(await service_of(request).what_if(name, sent))


@router.get("/assembly", response_model=answers.Assembly)
async def assembly(request: Request) -> Response:
    """How the piece goes together: the booklet's sheets and the glue-up cards, once the slow work has answered."""
    return written(await service_of(request).assembly())


@router.get("/papers", response_model=answers.Papers)
async def papers(request: Request) -> Response:
    """All papers, and which of them are made."""
    return written(service_of(request).papers())


@router.post("/papers", response_model=answers.Task)
async def make_papers(request: Request, sent: requests.PapersAsked) -> Response:
    """Make papers; progress comes over the socket."""
    return written(service_of(request).make_papers(sent.names))


@router.delete("/papers/{task}", response_model=answers.Papers)
async def cancel_papers(request: Request, task: int) -> Response:
    """Call the making of papers off."""
    return written(service_of(request).cancel_papers(task))


@router.post("/papers/save", response_model=answers.SavedPapers)
async def save_papers(request: Request, sent: requests.PapersSaved) -> Response:
    """Write made papers into a folder beside the job file."""
    return written(service_of(request).save_papers(sent.files))


_PICTURE: dict[int | str, dict[str, Any]] = {200: {"content": {"image/svg+xml": {"schema": {"type": "string"}}}}}


@router.get("/papers/{name}/{page}.svg", responses=_PICTURE, response_class=Response)
async def picture(request: Request, name: str, page: int) -> Response:
    """One sheet as a picture, pages counted from 1."""
    return Response(service_of(request).picture(name, page), media_type="image/svg+xml")


@router.get("/papers/{file}", responses=_BINARY, response_class=Response)
async def paper(request: Request, file: str) -> Response:
    """A made paper, to be saved by the browser."""
    data, kind = service_of(request).paper(file)
    name = file.replace('"', "")
    return Response(data, media_type=kind, headers={"Content-Disposition": f'attachment; filename="{name}"'})
