/* The service worker. The server puts SHELL before this: the version, and every file of it. */
const PREFIX = "quizzer-shell-", CACHE = PREFIX + SHELL.version, PAGE = "/study", PATIENCE = 4000;

addEventListener("install", (event) => event.waitUntil(install()));
addEventListener("activate", (event) => event.waitUntil(tidy()));
addEventListener("message", (event) => { if (event.data === "take") skipWaiting(); });
addEventListener("fetch", (event) => {
  const { request } = event, { origin, pathname } = new URL(request.url);
  if (request.method !== "GET" || origin !== location.origin) return;
  if (SHELL.files.includes(pathname)) event.respondWith(kept(request));
  else if (request.mode === "navigate") event.respondWith(page(request, pathname));
});

/** All files or none; the page of the session too, where somebody is in. */
async function install() {
  const cache = await caches.open(CACHE);
  await cache.addAll(SHELL.files);
  const answer = await fetch(`${PAGE}?shell`).catch(() => undefined);
  if (answer) await keep(answer);
}

/** Older shells go; what others keep at this address stays. */
async function tidy() {
  const old = (await caches.keys()).filter((name) => name.startsWith(PREFIX) && name !== CACHE);
  await Promise.all(old.map((name) => caches.delete(name)));
  await clients.claim();
}

/** A file of the shell, from the phone. */
async function kept(request) {
  return (await (await caches.open(CACHE)).match(request.url)) ?? fetch(request);
}

/** A page, from the server where it answers in time; of the session there is one on the phone, and questions too. */
async function page(request, path) {
  const mine = (await caches.open(CACHE)).match(PAGE);
  const asked = path === PAGE ? `${request.url}${request.url.includes("?") ? "&" : "?"}shell` : request;
  const answer = await fetch(asked, { signal: AbortSignal.timeout(PATIENCE) }).catch(() => undefined);
  if (path !== PAGE) return answer ?? Response.redirect(PAGE);
  if (!answer) return (await mine) ?? Response.error();
  return (await keep(answer)) ?? (await mine) ?? answer;
}

/**
 * Keep the page of the session, if it is of this version, and give it back. The page of a newer one waits with its
 * worker until the person takes it, unless it is for somebody else.
 */
async function keep(answer) {
  if (!answer.ok) return answer;
  const cache = await caches.open(CACHE), text = await answer.clone().text();
  if (text.includes(`/${SHELL.version}/`)) {
    await cache.put(PAGE, answer.clone());
    return answer;
  }
  const old = await (await cache.match(PAGE))?.text();
  return person(old) === person(text) ? undefined : answer;
}

/** Whose page it is. */
const person = (text) => /data-person="([^"]*)"/.exec(text ?? "")?.[1];
