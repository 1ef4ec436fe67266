"""A running service whose database goes away: it says so, promises nothing, and comes back."""

from tests.service.processes import until


def statuses(client) -> set[int]:
    """What a new plan, a list, health and readiness are answered with."""
    answers = [client.post("/v1/plans", json={"order": "sleep", "seconds": 0})]
    answers += [client.get(path) for path in ("/v1/plans", "/healthz", "/readyz")]
    assert all("retry-after" in answer.headers for answer in answers if answer.status_code == 503)
    return {answer.status_code for answer in answers}


def test_a_lost_database_is_503_everywhere_until_it_is_back(client, settings, finished):
    """Without its database nothing is accepted, health and readiness say so, and then it heals."""
    finished(client.post("/v1/plans", json={}).json()["plan_id"])
    assert statuses(client) <= {200, 202}
    away = settings.database.with_suffix(".away")
    settings.database.rename(away)
    until(lambda: statuses(client) == {503}, seconds=5)
    away.rename(settings.database)
    until(lambda: statuses(client) == {200, 202}, seconds=5)


def test_a_result_that_comes_while_the_database_is_gone_is_kept(client, settings, finished):
    """A solve that ends without a database is stored when it is back, and not solved again."""
    body = {"order": "sleep", "seconds": 1, "solve_seconds": 5}
    plan_id = client.post("/v1/plans", json=body).json()["plan_id"]
    until(lambda: client.get(f"/v1/plans/{plan_id}").json()["state"] == "running")
    away = settings.database.with_suffix(".away")
    settings.database.rename(away)
    until(lambda: client.get("/readyz").status_code == 503, seconds=5)
    until(lambda: client.get(f"/v1/plans/{plan_id}").status_code == 503, seconds=5)
    away.rename(settings.database)
    plan = finished(plan_id)
    assert (plan["state"], plan["attempt"]) == ("done", 1)
