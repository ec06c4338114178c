// The clock of a mock paper: counts down between two pages. The server's clock decides; at the end it is asked.
const place = document.getElementById("clock");

/** @param {number} seconds @returns {string} minutes and seconds */
function shown(seconds) {
  return `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, "0")}`;
}

if (place) {
  const end = performance.now() + 1000 * Number(place.dataset.left);
  const tick = () => {
    const left = Math.max(0, Math.round((end - performance.now()) / 1000));
    place.textContent = shown(left);
    if (left > 0) setTimeout(tick, 1000);
    else location.reload();
  };
  tick();
}
