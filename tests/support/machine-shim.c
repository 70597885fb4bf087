/*
 * Stands between a hub and its machine (LD_PRELOAD), so that tests can do to the machine what they cannot do to a real
 * one: note every change to files of one folder and when it was forced to the disk, refuse to write there, and set the
 * clock that tells the date. Everything else passes through as it is.
 *
 *   SHIM_FOLDER   changes below this folder are noted, and refused where that is asked for
 *   SHIM_LOG      where they are noted: records of `struct noted`, each followed by its path and its bytes
 *   SHIM_CONTROL  a file of `struct control`, which the test changes while the hub runs
 */
#define _GNU_SOURCE
#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <pthread.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <sys/time.h>
#include <sys/uio.h>
#include <time.h>
#include <unistd.h>

enum kind { MADE = 1, WRITTEN, CUT, FORCED, RENAMED, REMOVED };

struct noted {
  uint32_t kind;
  uint32_t path_length;
  uint32_t data_length;
  uint32_t unused;
  int64_t offset; /* of the bytes; for CUT the new length */
  uint64_t begun_ns; /* CLOCK_MONOTONIC, which both processes share */
  uint64_t ended_ns;
};

struct control {
  int64_t ahead_ns; /* by how much the date is ahead of the machine's */
  int32_t refusal;  /* the errno that writing gives, or 0 */
  int32_t unused;
};

static const char *folder;
static size_t folder_length;
static int log_file = -1;
static const volatile struct control *control;
static pthread_mutex_t in_order = PTHREAD_MUTEX_INITIALIZER;

#define REAL(name) ((__typeof__(&name))next(#name))

static void *next(const char *name) { return dlsym(RTLD_NEXT, name); }

__attribute__((constructor)) static void begin(void) {
  const char *log = getenv("SHIM_LOG");
  const char *shared = getenv("SHIM_CONTROL");
  folder = getenv("SHIM_FOLDER");
  if (folder) folder_length = strlen(folder);
  if (log) log_file = syscall(SYS_openat, AT_FDCWD, log, O_WRONLY | O_CREAT | O_APPEND | O_CLOEXEC, 0600);
  if (shared) {
    int file = syscall(SYS_openat, AT_FDCWD, shared, O_RDONLY | O_CLOEXEC, 0);
    if (file >= 0) {
      void *at = mmap(NULL, sizeof(struct control), PROT_READ, MAP_SHARED, file, 0);
      if (at != MAP_FAILED) control = at;
      syscall(SYS_close, file);
    }
  }
}

static uint64_t now_ns(void) {
  struct timespec at;
  syscall(SYS_clock_gettime, CLOCK_MONOTONIC, &at);
  return (uint64_t)at.tv_sec * 1000000000u + (uint64_t)at.tv_nsec;
}

static int is_watched(const char *path) {
  return folder && path && strncmp(path, folder, folder_length) == 0 &&
         (path[folder_length] == '/' || path[folder_length] == 0);
}

/* The path of an open file of the folder; 0 for anything else. */
static int path_of(int file, char path[PATH_MAX]) {
  char link[32] = "/proc/self/fd/";
  char digits[12];
  int count = 0, place = 14;
  if (!folder || file < 0) return 0;
  for (int rest = file; count == 0 || rest > 0; rest /= 10) digits[count++] = (char)('0' + rest % 10);
  while (count > 0) link[place++] = digits[--count];
  link[place] = 0;
  ssize_t length = readlink(link, path, PATH_MAX - 1);
  if (length < 0) return 0;
  path[length] = 0;
  return is_watched(path);
}

static int is_refused(void) {
  if (!control || control->refusal == 0) return 0;
  errno = control->refusal;
  return 1;
}

static void note(enum kind kind, const char *path, const void *data, size_t length, int64_t offset, uint64_t begun) {
  if (log_file < 0) return;
  int kept = errno;
  struct noted noted = {kind, (uint32_t)strlen(path), (uint32_t)length, 0, offset, begun, now_ns()};
  struct iovec parts[3] = {{&noted, sizeof noted}, {(void *)path, noted.path_length}, {(void *)data, length}};
  syscall(SYS_writev, log_file, parts, 3);
  errno = kept;
}

static ssize_t write_noted(int file, const void *data, size_t length, int64_t offset) {
  char path[PATH_MAX];
  int is_at_end = offset < 0;
  if (!path_of(file, path))
    return is_at_end ? REAL(write)(file, data, length) : REAL(pwrite64)(file, data, length, offset);
  if (is_refused()) return -1;
  pthread_mutex_lock(&in_order);
  uint64_t begun = now_ns();
  if (is_at_end) offset = fcntl(file, F_GETFL) & O_APPEND ? lseek64(file, 0, SEEK_END) : lseek64(file, 0, SEEK_CUR);
  ssize_t done = is_at_end ? REAL(write)(file, data, length) : REAL(pwrite64)(file, data, length, offset);
  if (done > 0) note(WRITTEN, path, data, (size_t)done, offset, begun);
  pthread_mutex_unlock(&in_order);
  return done;
}

ssize_t write(int file, const void *data, size_t length) { return write_noted(file, data, length, -1); }
ssize_t pwrite64(int file, const void *data, size_t length, off64_t offset) {
  return write_noted(file, data, length, offset);
}
ssize_t pwrite(int file, const void *data, size_t length, off_t offset) {
  return write_noted(file, data, length, offset);
}

int ftruncate64(int file, off64_t length) {
  char path[PATH_MAX];
  if (!path_of(file, path)) return REAL(ftruncate64)(file, length);
  if (is_refused()) return -1;
  pthread_mutex_lock(&in_order);
  uint64_t begun = now_ns();
  int result = REAL(ftruncate64)(file, length);
  if (result == 0) note(CUT, path, NULL, 0, length, begun);
  pthread_mutex_unlock(&in_order);
  return result;
}
int ftruncate(int file, off_t length) { return ftruncate64(file, length); }

static int force_noted(int file, const char *name) {
  char path[PATH_MAX];
  int (*force)(int) = (int (*)(int))next(name);
  if (!path_of(file, path)) return force(file);
  if (is_refused()) return -1;
  pthread_mutex_lock(&in_order);
  uint64_t begun = now_ns();
  int result = force(file);
  if (result == 0) note(FORCED, path, NULL, 0, 0, begun);
  pthread_mutex_unlock(&in_order);
  return result;
}
int fsync(int file) { return force_noted(file, "fsync"); }
int fdatasync(int file) { return force_noted(file, "fdatasync"); }

static int open_noted(const char *path, int flags, mode_t mode) {
  int (*real)(const char *, int, ...) = REAL(open64);
  if (!is_watched(path)) return real(path, flags, mode);
  if ((flags & (O_WRONLY | O_RDWR | O_CREAT | O_TRUNC)) && is_refused()) return -1;
  pthread_mutex_lock(&in_order);
  uint64_t begun = now_ns();
  int is_new = (flags & O_CREAT) && syscall(SYS_faccessat, AT_FDCWD, path, F_OK) != 0;
  int file = real(path, flags, mode);
  if (file >= 0 && is_new) note(MADE, path, NULL, 0, 0, begun);
  if (file >= 0 && !is_new && (flags & O_TRUNC)) note(CUT, path, NULL, 0, 0, begun);
  pthread_mutex_unlock(&in_order);
  return file;
}

int open64(const char *path, int flags, ...) {
  va_list rest;
  va_start(rest, flags);
  mode_t mode = flags & (O_CREAT | O_TMPFILE) ? va_arg(rest, mode_t) : 0;
  va_end(rest);
  return open_noted(path, flags, mode);
}
int open(const char *path, int flags, ...) {
  va_list rest;
  va_start(rest, flags);
  mode_t mode = flags & (O_CREAT | O_TMPFILE) ? va_arg(rest, mode_t) : 0;
  va_end(rest);
  return open_noted(path, flags, mode);
}

int rename(const char *from, const char *to) {
  if (!is_watched(from) && !is_watched(to)) return REAL(rename)(from, to);
  if (is_refused()) return -1;
  pthread_mutex_lock(&in_order);
  uint64_t begun = now_ns();
  int result = REAL(rename)(from, to);
  if (result == 0) note(RENAMED, from, to, strlen(to), 0, begun);
  pthread_mutex_unlock(&in_order);
  return result;
}

int unlink(const char *path) {
  if (!is_watched(path)) return REAL(unlink)(path);
  if (is_refused()) return -1;
  pthread_mutex_lock(&in_order);
  uint64_t begun = now_ns();
  int result = REAL(unlink)(path);
  if (result == 0) note(REMOVED, path, NULL, 0, 0, begun);
  pthread_mutex_unlock(&in_order);
  return result;
}

int access(const char *path, int mode) {
  if ((mode & W_OK) && is_watched(path) && is_refused()) return -1;
  return REAL(access)(path, mode);
}

int clock_gettime(clockid_t clock, struct timespec *at) {
  int result = (int)syscall(SYS_clock_gettime, clock, at);
  if (result == 0 && control && (clock == CLOCK_REALTIME || clock == CLOCK_REALTIME_COARSE)) {
    int64_t ns = (int64_t)at->tv_nsec + control->ahead_ns % 1000000000;
    at->tv_sec += control->ahead_ns / 1000000000;
    if (ns < 0) ns += 1000000000, at->tv_sec--;
    if (ns >= 1000000000) ns -= 1000000000, at->tv_sec++;
    at->tv_nsec = (long)ns;
  }
  return result;
}

int gettimeofday(struct timeval *restrict at, void *restrict zone) {
  struct timespec now;
  (void)zone;
  if (clock_gettime(CLOCK_REALTIME, &now) != 0) return -1;
  at->tv_sec = now.tv_sec;
  at->tv_usec = now.tv_nsec / 1000;
  return 0;
}
