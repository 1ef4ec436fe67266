// A journey with the generated types: ask, wait, read, be refused, delete.
import type { components, paths } from "./api";

declare const process: { argv: string[] };

type Schemas = components["schemas"];
type Asked = paths["/v1/plans"]["post"]["requestBody"]["content"]["application/json"];

// Only what is required: a field that generators make required by mistake stops the compiler here.
const request: Asked = {
  reference: "journey",
  route: {
    places: [
      { place_id: "road", elevation: "2300 m" },
      { place_id: "camp", elevation: "3100 m" },
    ],
    legs: [{ from: "road", to: "camp", mode: "pack" }],
  },
  calendar: [["road", "camp"], ["camp", "road"]],
  roster: [{ person_id: "anna", pack_cap: "25 kg" }],
};

function expect(holds: boolean, what: string): void {
  if (!holds) throw new Error(what);
}

async function main(): Promise<void> {
  const url = process.argv[2];
  const send = (path: string, method: string, body?: unknown): Promise<Response> =>
    fetch(url + path, {
      method,
      headers: { "Content-Type": "application/json", Prefer: "wait=60" },
      body: body === undefined ? undefined : JSON.stringify(body),
    });
  const made = await send("/v1/plans", "POST", request);
  expect(made.status === 201 || made.status === 202, `made ${made.status}`);
  let plan = (await made.json()) as Schemas["PlanResourceAnswer"];
  while (plan.state === "queued" || plan.state === "running") {
    await new Promise((resolve) => setTimeout(resolve, 500));
    plan = (await (await send(`/v1/plans/${plan.plan_id}`, "GET")).json()) as typeof plan;
  }
  expect(plan.outcome?.outcome === "solved", JSON.stringify(plan.outcome));
  if (plan.outcome?.outcome === "solved") {
    expect(plan.outcome.plan.trips[0].loads[0].pack_kg > 0, "an empty pack");
  }
  const nobody: Asked = { ...request, roster: [] };
  const refused = await send("/v1/plans", "POST", nobody);
  const problem = (await refused.json()) as Schemas["ProblemDetails"];
  expect(refused.status === 422 && problem.code === "invalid_request", problem.title);
  expect((problem.errors ?? []).length > 0, "no faults");
  const gone = await send(`/v1/plans/${plan.plan_id}`, "DELETE");
  expect(gone.status === 204, `deleted ${gone.status}`);
  console.log("arrived");
}

void main();
