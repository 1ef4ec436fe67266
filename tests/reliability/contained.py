"""Runs programs of an image as a container engine would, with `unshare`, `chroot` and `setpriv`.

Each has its own processes and mounts, another user without any capability, a root folder that is
read-only, a volume at /data and a small /tmp. Nothing of the network is apart.
"""

import os
import signal
import subprocess
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from tests.reliability.image_build import Image
from tests.service.processes import parent_of

_MOUNTS = """
set -e
root=$1 data=$2 hosts=$3 mode=$4
shift 4
mount --bind "$root" "$root"
mount --bind "$data" "$root/data"
mount -t tmpfs -o size=512m,mode=1777,nosuid,nodev tmp "$root/tmp"
mount -t tmpfs -o size=64m,mode=755 dev "$root/dev"
for name in null zero random urandom; do
    touch "$root/dev/$name"
    mount --bind "/dev/$name" "$root/dev/$name"
done
mkdir -m 1777 "$root/dev/shm"
mount --bind "$hosts" "$root/etc/hosts"
mount -t proc proc "$root/proc"
mount -o "remount,bind,$mode" "$root"
exec chroot "$root" "$@"
"""


@dataclass
class Container:
    """One program of an image. `user` and `mode` are other than usual only in planted faults."""

    image: Image
    volume: Path
    environment: dict[str, str] = field(default_factory=dict)
    user: str = "10001"
    mode: str = "ro"
    _outer: subprocess.Popen | None = None

    def start(self, command: list[str], **how: Any) -> subprocess.Popen:
        """Start a program of the image, in its variables and its working folder."""
        hosts = self.volume.parent / "hosts"
        hosts.write_text("127.0.0.1 localhost postgres api\n", encoding="ascii")
        (self.image.folder / "etc" / "hosts").touch()
        apart = ["unshare", "--mount", "--pid", "--fork", "--ipc", "--kill-child"]
        paths = [str(self.image.folder), str(self.volume), str(hosts), self.mode]
        script = ["sh", "-c", _MOUNTS, "sh", *paths]
        self._outer = subprocess.Popen([*apart, "--", *script, *self._as_user(command)], **how)
        return self._outer

    def run_within(self, command: list[str], *, seconds: float = 20) -> int:
        """The exit status of another program in the running container, as engines check health."""
        enter = ["nsenter", f"--target={self.process()}", "--mount", "--pid", "--ipc", "--root"]
        try:
            done = subprocess.run(
                [*enter, "--", *self._as_user(command)],
                capture_output=True,
                timeout=seconds,
                check=False,
            )
        except subprocess.TimeoutExpired:
            return 1
        return done.returncode

    def process(self) -> int:
        """The first process inside, by its number outside; 0 where there is none."""
        numbers = (int(entry.name) for entry in Path("/proc").iterdir() if entry.name.isdigit())
        return next((n for n in numbers if parent_of(n) == self._outer.pid), 0)

    def stop(self, *, seconds: float = 30) -> int:
        """Send SIGTERM as an engine does, and wait so long [s]; gives the exit status."""
        os.kill(self.process(), signal.SIGTERM)
        return self._outer.wait(timeout=seconds)

    def kill(self) -> None:
        """End it at once, whatever it does."""
        if self._outer is not None and self._outer.poll() is None:
            # All others inside die with the first; the signal of a parent's death does not
            # outlast the change of the user.
            first = self.process()
            if first:
                os.kill(first, signal.SIGKILL)
            self._outer.kill()
            self._outer.wait()

    def _as_user(self, command: list[str]) -> list[str]:
        """A command as the user of the image, with its variables and nothing else."""
        variables = {**self.image.environment, **self.environment}
        ids = [f"--reuid={self.user}", f"--regid={self.user}", "--clear-groups"]
        cut = ["--no-new-privs", "--bounding-set=-all", "--inh-caps=-all"]
        user = ["/usr/bin/setpriv", *ids, *(cut if self.user != "0" else []), "--"]
        place = ["/usr/bin/env", "-i", "-C", self.image.settings["WorkingDir"]]
        return [*user, *place, *(f"{name}={value}" for name, value in variables.items()), *command]
