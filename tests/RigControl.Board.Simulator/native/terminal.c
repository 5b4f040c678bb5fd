/* A pseudo-terminal that stands for the board's serial port. */
#define _GNU_SOURCE
#include "boardsim.h"

#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <termios.h>
#include <unistd.h>

static int make_raw(int far)
{
	struct termios settings;

	if (tcgetattr(far, &settings) != 0)
		return -1;
	cfmakeraw(&settings);
	return tcsetattr(far, TCSANOW, &settings);
}

/* The far side is opened here and never closed, so that the line stays up when a client leaves. */
int boardsim_terminal_open(char *path, int path_size)
{
	int near = posix_openpt(O_RDWR | O_NOCTTY | O_NONBLOCK | O_CLOEXEC), far = -1;

	if (near < 0)
		return -1;
	if (grantpt(near) == 0 && unlockpt(near) == 0 && ptsname_r(near, path, path_size) == 0)
		far = open(path, O_RDWR | O_NOCTTY | O_CLOEXEC);
	if (far < 0 || make_raw(far) != 0) {
		close(near);
		return -1;
	}
	return near;
}

static int moved(ssize_t count) { return count > 0 ? (int)count : 0; }

int boardsim_terminal_read(int terminal, uint8_t *bytes, int room) { return moved(read(terminal, bytes, room)); }

int boardsim_terminal_write(int terminal, const uint8_t *bytes, int count) { return moved(write(terminal, bytes, count)); }

void boardsim_terminal_close(int terminal) { close(terminal); }
