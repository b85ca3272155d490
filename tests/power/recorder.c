/* Stands between a program and its storage, for tests; loaded with LD_PRELOAD.
 *
 * POWER_FOLDER names the one folder that is watched, by its real path.
 * POWER_LOG names the file that everything done in it is written down in, in the order in
 * which it took effect. The program says what it acknowledges with power_tell().
 * power_fault() lets a later call fail, as a disk that is full or broken would.
 *
 * Files whose name ends in -shm can fail but are not written down: SQLite writes them
 * through shared memory, and the first program to open a book after a power cut empties
 * them, whatever they hold.
 *
 * A call that changes the folder in a way the replayer has no rule for is written down as
 * 'X' with its name, and the replayer refuses such a log: a gap in the record must not pass
 * for a promise kept.
 */
#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <pthread.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <sys/uio.h>
#include <unistd.h>

#define MOST_FILES 4096
#define REAL(name) ((__typeof__(&name))find_real(#name))

enum { OUTSIDE, FILE_OF_OURS, FOLDER_OF_OURS, UNWRITTEN };

struct __attribute__((packed)) head {
    uint8_t what;
    int32_t fd;
    int64_t place;
    uint32_t first;
    uint32_t second;
};

static pthread_mutex_t turn = PTHREAD_MUTEX_INITIALIZER;
static char watched[PATH_MAX];
static size_t watched_size;
static int log_fd = -1;
static pid_t owner;
static unsigned char kinds[MOST_FILES];
static struct {
    char what[8];
    long left;
    int error;
    int lasts;
    long met;
} fault;

static void *find_real(const char *name) {
    void *found = dlsym(RTLD_NEXT, name);
    if (!found) abort();
    return found;
}

__attribute__((constructor)) static void begin(void) {
    const char *folder = getenv("POWER_FOLDER"), *log = getenv("POWER_LOG");
    if (!folder || !log) return;
    watched_size = strlen(strncpy(watched, folder, PATH_MAX - 1));
    owner = getpid();
    log_fd = (int)syscall(SYS_openat, AT_FDCWD, log, O_WRONLY | O_CREAT | O_APPEND | O_CLOEXEC, 0644);
    if (log_fd < 0) abort();
}

/* Once the program forks, only the parent is watched: the log knows one table of files. */
static int is_watching(void) { return log_fd >= 0 && getpid() == owner; }

static int kind_of(int fd) {
    return fd >= 0 && fd < MOST_FILES && is_watching() ? kinds[fd] : OUTSIDE;
}

static void put_down(char what, int fd, int64_t place, const void *first, size_t first_size,
                     const char *second) {
    struct head head = {(uint8_t)what, fd, place, (uint32_t)first_size,
                        (uint32_t)(second ? strlen(second) : 0)};
    struct iovec parts[3] = {{&head, sizeof head}, {(void *)first, first_size},
                             {(void *)second, head.second}};
    ssize_t whole = (ssize_t)(sizeof head + head.first + head.second);
    int kept = errno;
    if (syscall(SYS_writev, log_fd, parts, 3) != whole) abort();
    errno = kept;
}

static void put_down_name(char what, int fd, int64_t place, const char *first, const char *second) {
    put_down(what, fd, place, first, strlen(first), second);
}

/* Tell where in the watched folder a path leads, or NULL if it leads elsewhere. */
static const char *within(int at, const char *path, char *whole) {
    char link[64];
    ssize_t size = 0;
    if (!is_watching() || !path) return NULL;
    if (path[0] == '/') {
        snprintf(whole, PATH_MAX, "%s", path);
    } else {
        if (at == AT_FDCWD) snprintf(link, sizeof link, "/proc/self/cwd");
        else snprintf(link, sizeof link, "/proc/self/fd/%d", at);
        size = readlink(link, whole, PATH_MAX - 1);
        if (size < 0) return NULL;
        snprintf(whole + size, (size_t)(PATH_MAX - size), "/%s", path);
    }
    size = (ssize_t)strlen(whole);
    while (size > 1 && whole[size - 1] == '/') whole[--size] = 0;
    if (strncmp(whole, watched, watched_size)) return NULL;
    if (!whole[watched_size]) return whole + watched_size;
    return whole[watched_size] == '/' ? whole + watched_size + 1 : NULL;
}

static int is_unwritten(const char *name) {
    size_t size = strlen(name);
    return size >= 4 && !strcmp(name + size - 4, "-shm");
}

/* Called with the turn held: whether this call is one to fail; sets errno. */
static int is_hit(const char *what) {
    if (!fault.error || strcmp(fault.what, what)) return 0;
    fault.met++;
    if (fault.left > 1) {
        fault.left--;
        return 0;
    }
    errno = fault.error;
    if (!fault.lasts) fault.error = 0;
    return 1;
}

/* ---- what the watched program calls ---- */

void power_tell(const char *text) {
    pthread_mutex_lock(&turn);
    if (is_watching()) put_down_name('A', -1, 0, text, NULL);
    pthread_mutex_unlock(&turn);
}

/* Let the nth call of a kind from now on fail, once or from then on: "write", "sync" or
 * "name". "short" lets it write half and the one after it fail. error 0: no more faults. */
void power_fault(const char *what, long nth, int error, int lasts) {
    pthread_mutex_lock(&turn);
    snprintf(fault.what, sizeof fault.what, "%s", what);
    fault.left = nth;
    fault.error = error;
    fault.lasts = lasts;
    fault.met = 0;
    pthread_mutex_unlock(&turn);
}

/* Return how many calls of that kind came by since then. */
long power_met(void) { return fault.met; }

/* ---- opening and closing ---- */

static void take_note_of(int fd, const char *name, int flags) {
    struct stat facts;
    int kept = errno;
    if (fd >= MOST_FILES || fstat(fd, &facts)) abort();
    if (S_ISDIR(facts.st_mode)) kinds[fd] = FOLDER_OF_OURS;
    else kinds[fd] = is_unwritten(name) ? UNWRITTEN : FILE_OF_OURS;
    if ((flags & O_TMPFILE) == O_TMPFILE) put_down_name('X', fd, 0, "O_TMPFILE", NULL);
    if (kinds[fd] == FOLDER_OF_OURS) put_down_name('D', fd, 0, name, NULL);
    if (kinds[fd] == FILE_OF_OURS)
        put_down_name('O', fd, (flags & O_CREAT ? 1 : 0) | (flags & O_TRUNC ? 2 : 0), name, NULL);
    errno = kept;
}

static int open_any(int at, const char *path, int flags, mode_t mode) {
    char whole[PATH_MAX];
    int fd = -1;
    const char *name = within(at, path, whole);
    if (!name) return REAL(openat)(at, path, flags, mode);
    pthread_mutex_lock(&turn);
    if (!(flags & O_CREAT) || !is_hit("name")) fd = REAL(openat)(at, path, flags, mode);
    if (fd >= 0) take_note_of(fd, name, flags);
    pthread_mutex_unlock(&turn);
    return fd;
}

static mode_t mode_in(int flags, va_list rest) {
    return flags & (O_CREAT | (O_TMPFILE & ~O_DIRECTORY)) ? va_arg(rest, mode_t) : 0;
}

#define OPENS(name)                                       \
    int name(const char *path, int flags, ...) {          \
        va_list rest;                                     \
        va_start(rest, flags);                            \
        mode_t mode = mode_in(flags, rest);               \
        va_end(rest);                                     \
        return open_any(AT_FDCWD, path, flags, mode);     \
    }
#define OPENS_AT(name)                                    \
    int name(int at, const char *path, int flags, ...) {  \
        va_list rest;                                     \
        va_start(rest, flags);                            \
        mode_t mode = mode_in(flags, rest);               \
        va_end(rest);                                     \
        return open_any(at, path, flags, mode);           \
    }
OPENS(open)
OPENS(open64)
OPENS_AT(openat)
OPENS_AT(openat64)
int __open_2(const char *path, int flags) { return open_any(AT_FDCWD, path, flags, 0); }
int __open64_2(const char *path, int flags) { return open_any(AT_FDCWD, path, flags, 0); }
int __openat_2(int at, const char *path, int flags) { return open_any(at, path, flags, 0); }
int __openat64_2(int at, const char *path, int flags) { return open_any(at, path, flags, 0); }
int creat(const char *path, mode_t mode) {
    return open_any(AT_FDCWD, path, O_WRONLY | O_CREAT | O_TRUNC, mode);
}
int creat64(const char *path, mode_t mode) { return creat(path, mode); }

int close(int fd) {
    int done;
    pthread_mutex_lock(&turn);
    if (kind_of(fd) == FILE_OF_OURS || kind_of(fd) == FOLDER_OF_OURS)
        put_down('C', fd, 0, NULL, 0, NULL);
    if (fd >= 0 && fd < MOST_FILES) kinds[fd] = OUTSIDE;
    done = REAL(close)(fd);
    pthread_mutex_unlock(&turn);
    return done;
}

/* ---- contents ---- */

/* Called with the turn held: bytes of this write that the storage takes, -1 for none. */
static ssize_t taken(size_t size) {
    if (fault.error && !strcmp(fault.what, "short")) {
        fault.met++;
        if (fault.left-- > 1) return (ssize_t)size;
        strcpy(fault.what, "write"); /* what follows the half that fitted does not fit */
        fault.left = 1;
        return (ssize_t)(size > 1 ? size / 2 : size);
    }
    return is_hit("write") ? -1 : (ssize_t)size;
}

static ssize_t write_any(int fd, const void *data, size_t size, int64_t place) {
    ssize_t done = taken(size);
    if (done < 0) return -1;
    if (place < 0) done = REAL(write)(fd, data, (size_t)done);
    else done = REAL(pwrite64)(fd, data, (size_t)done, place);
    if (done > 0 && kind_of(fd) == FILE_OF_OURS) {
        if (place < 0) place = lseek64(fd, 0, SEEK_CUR) - done;
        put_down('W', fd, place, data, (size_t)done, NULL);
    }
    return done;
}

ssize_t write(int fd, const void *data, size_t size) {
    ssize_t done;
    if (kind_of(fd) == OUTSIDE) return REAL(write)(fd, data, size);
    pthread_mutex_lock(&turn);
    done = write_any(fd, data, size, -1);
    pthread_mutex_unlock(&turn);
    return done;
}

ssize_t pwrite64(int fd, const void *data, size_t size, off64_t place) {
    ssize_t done;
    if (kind_of(fd) == OUTSIDE) return REAL(pwrite64)(fd, data, size, place);
    pthread_mutex_lock(&turn);
    done = write_any(fd, data, size, place);
    pthread_mutex_unlock(&turn);
    return done;
}

ssize_t pwrite(int fd, const void *data, size_t size, off_t place) {
    return pwrite64(fd, data, size, place);
}

static ssize_t write_parts(int fd, const struct iovec *parts, int count, int64_t place) {
    ssize_t sum = 0;
    pthread_mutex_lock(&turn);
    for (int i = 0; i < count; i++) {
        ssize_t done = write_any(fd, parts[i].iov_base, parts[i].iov_len, place);
        if (done < 0 && !sum) sum = -1;
        if (done > 0) sum += done;
        if (done > 0 && place >= 0) place += done;
        if (done < (ssize_t)parts[i].iov_len) break;
    }
    pthread_mutex_unlock(&turn);
    return sum;
}

ssize_t writev(int fd, const struct iovec *parts, int count) {
    if (kind_of(fd) == OUTSIDE) return REAL(writev)(fd, parts, count);
    return write_parts(fd, parts, count, -1);
}

ssize_t pwritev64(int fd, const struct iovec *parts, int count, off64_t place) {
    if (kind_of(fd) == OUTSIDE) return REAL(pwritev64)(fd, parts, count, place);
    return write_parts(fd, parts, count, place);
}

ssize_t pwritev(int fd, const struct iovec *parts, int count, off_t place) {
    return pwritev64(fd, parts, count, place);
}

ssize_t pwritev64v2(int fd, const struct iovec *parts, int count, off64_t place, int flags) {
    if (kind_of(fd) == OUTSIDE) return REAL(pwritev64v2)(fd, parts, count, place, flags);
    return write_parts(fd, parts, count, place);
}

int ftruncate64(int fd, off64_t size) {
    int done = -1;
    if (kind_of(fd) == OUTSIDE) return REAL(ftruncate64)(fd, size);
    pthread_mutex_lock(&turn);
    if (!is_hit("write")) done = REAL(ftruncate64)(fd, size);
    if (!done && kind_of(fd) == FILE_OF_OURS) put_down('T', fd, size, NULL, 0, NULL);
    pthread_mutex_unlock(&turn);
    return done;
}

int ftruncate(int fd, off_t size) { return ftruncate64(fd, size); }

static int sync_any(int fd, int (*sync_real)(int)) {
    int done = -1;
    if (kind_of(fd) == OUTSIDE) return sync_real(fd);
    pthread_mutex_lock(&turn);
    if (!is_hit("sync")) done = sync_real(fd);
    if (kind_of(fd) != UNWRITTEN) put_down(done ? 'E' : 'S', fd, 0, NULL, 0, NULL);
    pthread_mutex_unlock(&turn);
    return done;
}

int fsync(int fd) { return sync_any(fd, REAL(fsync)); }
int fdatasync(int fd) { return sync_any(fd, REAL(fdatasync)); }

/* ---- names ---- */

static int change_name(char what, int at, const char *old, int new_at, const char *new,
                       unsigned flags) {
    char from[PATH_MAX], to[PATH_MAX];
    const char *first = within(at, old, from), *second = within(new_at, new, to);
    int done = -1;
    pthread_mutex_lock(&turn);
    if (!(first || second) || !is_hit("name"))
        done = what == 'R' ? REAL(renameat2)(at, old, new_at, new, flags)
                           : REAL(linkat)(at, old, new_at, new, (int)flags);
    if (!done && first && second) put_down_name(flags ? 'X' : what, -1, 0, first, second);
    if (!done && !first != !second) put_down_name('X', -1, 0, "a name from outside", NULL);
    pthread_mutex_unlock(&turn);
    return done;
}

int rename(const char *old, const char *new) {
    return change_name('R', AT_FDCWD, old, AT_FDCWD, new, 0);
}
int renameat(int at, const char *old, int new_at, const char *new) {
    return change_name('R', at, old, new_at, new, 0);
}
int renameat2(int at, const char *old, int new_at, const char *new, unsigned flags) {
    return change_name('R', at, old, new_at, new, flags);
}
int link(const char *old, const char *new) {
    return change_name('L', AT_FDCWD, old, AT_FDCWD, new, 0);
}
int linkat(int at, const char *old, int new_at, const char *new, int flags) {
    return change_name('L', at, old, new_at, new, (unsigned)(flags & ~AT_SYMLINK_FOLLOW));
}

int unlinkat(int at, const char *path, int flags) {
    char whole[PATH_MAX];
    const char *name = within(at, path, whole);
    int done = -1;
    pthread_mutex_lock(&turn);
    if (!name || !is_hit("name")) done = REAL(unlinkat)(at, path, flags);
    if (!done && name && !is_unwritten(name))
        put_down_name(flags & AT_REMOVEDIR ? 'V' : 'U', -1, 0, name, NULL);
    pthread_mutex_unlock(&turn);
    return done;
}
int unlink(const char *path) { return unlinkat(AT_FDCWD, path, 0); }
int rmdir(const char *path) { return unlinkat(AT_FDCWD, path, AT_REMOVEDIR); }

int mkdirat(int at, const char *path, mode_t mode) {
    char whole[PATH_MAX];
    const char *name = within(at, path, whole);
    int done = -1;
    pthread_mutex_lock(&turn);
    if (!name || !is_hit("name")) done = REAL(mkdirat)(at, path, mode);
    if (!done && name) put_down_name('M', -1, 0, name, NULL);
    pthread_mutex_unlock(&turn);
    return done;
}
int mkdir(const char *path, mode_t mode) { return mkdirat(AT_FDCWD, path, mode); }

/* ---- ways to change the folder that the replayer has no rule for ---- */

static void confess(int is_ours, const char *call) {
    if (!is_ours) return;
    pthread_mutex_lock(&turn);
    put_down_name('X', -1, 0, call, NULL);
    pthread_mutex_unlock(&turn);
}

static int is_file(int fd) { return kind_of(fd) == FILE_OF_OURS; }

static int is_inside(const char *path) {
    char whole[PATH_MAX];
    return within(AT_FDCWD, path, whole) != NULL;
}

void *mmap64(void *at, size_t size, int use, int flags, int fd, off64_t place) {
    confess(is_file(fd) && flags & MAP_SHARED && use & PROT_WRITE, "mmap");
    return REAL(mmap64)(at, size, use, flags, fd, place);
}
void *mmap(void *at, size_t size, int use, int flags, int fd, off_t place) {
    return mmap64(at, size, use, flags, fd, place);
}
int fallocate64(int fd, int mode, off64_t place, off64_t size) {
    confess(is_file(fd), "fallocate");
    return REAL(fallocate64)(fd, mode, place, size);
}
int fallocate(int fd, int mode, off_t place, off_t size) {
    return fallocate64(fd, mode, place, size);
}
int posix_fallocate64(int fd, off64_t place, off64_t size) {
    confess(is_file(fd), "posix_fallocate");
    return REAL(posix_fallocate64)(fd, place, size);
}
int posix_fallocate(int fd, off_t place, off_t size) { return posix_fallocate64(fd, place, size); }
int truncate64(const char *path, off64_t size) {
    confess(is_inside(path), "truncate");
    return REAL(truncate64)(path, size);
}
int truncate(const char *path, off_t size) { return truncate64(path, size); }
ssize_t sendfile64(int to, int from, off64_t *place, size_t size) {
    confess(is_file(to), "sendfile");
    return REAL(sendfile64)(to, from, place, size);
}
ssize_t sendfile(int to, int from, off_t *place, size_t size) {
    return sendfile64(to, from, place, size);
}
ssize_t copy_file_range(int from, off64_t *from_place, int to, off64_t *to_place, size_t size,
                        unsigned flags) {
    confess(is_file(to), "copy_file_range");
    return REAL(copy_file_range)(from, from_place, to, to_place, size, flags);
}
ssize_t splice(int from, off64_t *from_place, int to, off64_t *to_place, size_t size,
               unsigned flags) {
    confess(is_file(to), "splice");
    return REAL(splice)(from, from_place, to, to_place, size, flags);
}
int dup2(int fd, int new) {
    confess(is_file(fd) || is_file(new), "dup2");
    return REAL(dup2)(fd, new);
}
int dup3(int fd, int new, int flags) {
    confess(is_file(fd) || is_file(new), "dup3");
    return REAL(dup3)(fd, new, flags);
}
int dup(int fd) {
    confess(is_file(fd), "dup");
    return REAL(dup)(fd);
}
int fcntl64(int fd, int command, ...) {
    va_list rest;
    va_start(rest, command);
    void *value = va_arg(rest, void *);
    va_end(rest);
    confess(is_file(fd) && (command == F_DUPFD || command == F_DUPFD_CLOEXEC), "fcntl");
    return REAL(fcntl64)(fd, command, value);
}
int fcntl(int fd, int command, ...) {
    va_list rest;
    va_start(rest, command);
    void *value = va_arg(rest, void *);
    va_end(rest);
    return fcntl64(fd, command, value);
}
FILE *fopen64(const char *path, const char *mode) {
    confess(is_inside(path) && (mode[0] != 'r' || strchr(mode, '+')), "fopen");
    return REAL(fopen64)(path, mode);
}
FILE *fopen(const char *path, const char *mode) { return fopen64(path, mode); }
int symlinkat(const char *to, int at, const char *path) {
    char whole[PATH_MAX];
    confess(within(at, path, whole) != NULL, "symlink");
    return REAL(symlinkat)(to, at, path);
}
int symlink(const char *to, const char *path) { return symlinkat(to, AT_FDCWD, path); }
