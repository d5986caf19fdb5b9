// Sends the code that the terminal shows; the answer sets the cookie by which this device is known.
const says = document.getElementById("says");

document.getElementById("pair").addEventListener("submit", async (event) => {
  event.preventDefault();
  const code = document.getElementById("code").value.replace(/\D/g, "");
  const answer = await fetch("/api/pair", {
    method: "POST",
    headers: { "Content-Type": "application/json" },
    body: JSON.stringify({ code }),
  });
  if (answer.ok) location.assign("/");
  else says.textContent = (await answer.json()).error;
});
