/* Preloaded into the program: makes the n-th call of one kind on files whose path holds FAIL_PATH fail, once or from then on.
   FAIL_CALL: open, read, write, torn (a write of which half reaches the file), lock, sync or truncate. FAIL_AT: n, from 1. FAIL_LASTS: 1 for every later call as well. FAIL_ERRNO: what is reported.
   FAIL_SEEN: a file that gets a byte when the call was reached. */
#define _GNU_SOURCE
#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <stdarg.h>
#include <stdatomic.h>
#include <stdlib.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

static atomic_long calls;

static void tell(void)
{
	const char *file = getenv("FAIL_SEEN");
	int (*real)(const char *, int, ...) = dlsym(RTLD_NEXT, "open64");
	int fd = file ? real(file, O_WRONLY | O_CREAT | O_APPEND, 0600) : -1;

	if (fd >= 0) {
		ssize_t (*out)(int, const void *, size_t) = dlsym(RTLD_NEXT, "write");
		out(fd, "x", 1);
		close(fd);
	}
}

static int fails(const char *call, const char *path)
{
	const char *wanted = getenv("FAIL_CALL"), *part = getenv("FAIL_PATH"), *at = getenv("FAIL_AT");
	long n;

	if (!wanted || !part || !at || strcmp(wanted, call) != 0 || !path || !strstr(path, part))
		return 0;
	n = atomic_fetch_add(&calls, 1) + 1;
	if (n != atol(at) && !(n > atol(at) && getenv("FAIL_LASTS")))
		return 0;
	tell();
	errno = getenv("FAIL_ERRNO") ? atoi(getenv("FAIL_ERRNO")) : EIO;
	return 1;
}

static const char *path_of(int fd, char *room, size_t size)
{
	char link[32];
	ssize_t length;

	snprintf(link, sizeof link, "/proc/self/fd/%d", fd);
	length = readlink(link, room, size - 1);
	if (length < 0)
		return NULL;
	room[length] = 0;
	return room;
}

static int fails_on(const char *call, int fd)
{
	char room[4096];

	return getenv("FAIL_CALL") && fails(call, path_of(fd, room, sizeof room));
}

#define REAL(type, name) ((type)dlsym(RTLD_NEXT, #name))

static int opened(const char *name, const char *path, int flags, mode_t mode)
{
	return fails("open", path) ? -1 : ((int (*)(const char *, int, ...))dlsym(RTLD_NEXT, name))(path, flags, mode);
}

int open(const char *path, int flags, ...) { va_list l; va_start(l, flags); mode_t m = va_arg(l, mode_t); va_end(l); return opened("open", path, flags, m); }
int open64(const char *path, int flags, ...) { va_list l; va_start(l, flags); mode_t m = va_arg(l, mode_t); va_end(l); return opened("open64", path, flags, m); }

typedef ssize_t (*pwrite_call)(int, const void *, size_t, off64_t);
typedef ssize_t (*write_call)(int, const void *, size_t);

static ssize_t placed(pwrite_call real, int fd, const void *b, size_t n, off64_t o)
{
	if (fails_on("write", fd))
		return -1;
	if (fails_on("torn", fd)) {
		int told = errno;

		real(fd, b, n / 2, o);
		errno = told;
		return -1;
	}
	return real(fd, b, n, o);
}

/* Only what takes a lock: nobody is refused to let one go. */
static int locked(const char *name, int fd, int command, void *argument)
{
	int takes = (command == F_SETLK || command == F_SETLKW) && ((struct flock *)argument)->l_type != F_UNLCK;

	return takes && fails_on("lock", fd) ? -1 : ((int (*)(int, int, ...))dlsym(RTLD_NEXT, name))(fd, command, argument);
}

int fcntl(int fd, int command, ...) { va_list l; va_start(l, command); void *a = va_arg(l, void *); va_end(l); return locked("fcntl", fd, command, a); }
int fcntl64(int fd, int command, ...) { va_list l; va_start(l, command); void *a = va_arg(l, void *); va_end(l); return locked("fcntl64", fd, command, a); }
ssize_t pread(int fd, void *b, size_t n, off_t o) { return fails_on("read", fd) ? -1 : REAL(ssize_t (*)(int, void *, size_t, off_t), pread)(fd, b, n, o); }
ssize_t pread64(int fd, void *b, size_t n, off64_t o) { return fails_on("read", fd) ? -1 : REAL(ssize_t (*)(int, void *, size_t, off64_t), pread64)(fd, b, n, o); }
ssize_t pwrite(int fd, const void *b, size_t n, off_t o) { return placed(REAL(pwrite_call, pwrite), fd, b, n, o); }
ssize_t pwrite64(int fd, const void *b, size_t n, off64_t o) { return placed(REAL(pwrite_call, pwrite64), fd, b, n, o); }
ssize_t write(int fd, const void *b, size_t n) { return fails_on("write", fd) ? -1 : REAL(write_call, write)(fd, b, n); }
int fsync(int fd) { return fails_on("sync", fd) ? -1 : REAL(int (*)(int), fsync)(fd); }
int fdatasync(int fd) { return fails_on("sync", fd) ? -1 : REAL(int (*)(int), fdatasync)(fd); }
int ftruncate64(int fd, off64_t n) { return fails_on("truncate", fd) ? -1 : REAL(int (*)(int, off64_t), ftruncate64)(fd, n); }
int ftruncate(int fd, off_t n) { return fails_on("truncate", fd) ? -1 : REAL(int (*)(int, off_t), ftruncate)(fd, n); }
