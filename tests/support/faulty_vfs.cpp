#include "support/faulty_vfs.h"

#include <sqlite3.h>

#include <algorithm>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <map>
#include <new>
#include <random>
#include <stdexcept>
#include <vector>

namespace support {

namespace {

namespace fs = std::filesystem;

enum class Doing : std::uint8_t { open, read, write, truncate, sync, size, lock, map, remove, look };

/// A change of a file that no sync has followed yet: what stood there before.
struct Change {
  std::size_t offset = 0;
  std::string before;
  std::size_t size_before = 0;
};

/// What a file of the disk has that is not on it yet.
struct Unsynced {
  bool is_new = false;
  std::vector<Change> changes;
};

struct State {
  sqlite3_vfs* real = nullptr;
  sqlite3_vfs own{};
  sqlite3_io_methods methods{};
  Fault fault;
  std::uint64_t count = 0;
  bool has_struck = false;
  bool is_off = false;  // the power
  std::string struck;
  std::map<std::string, Unsynced> unsynced;
};

State state;

struct File {
  sqlite3_file base;  // first, as SQLite asks
  std::string* path;  // none of a temporary file
  sqlite3_file* real() { return reinterpret_cast<sqlite3_file*>(this + 1); }
};

File& file_of(sqlite3_file* file) {
  return *reinterpret_cast<File*>(file);
}

bool cuts_power(FaultKind kind) {
  return kind == FaultKind::power_cut || kind == FaultKind::torn_power_cut;
}

bool can_fail(FaultKind kind, Doing doing) {
  switch (kind) {
    case FaultKind::error:
      return true;
    case FaultKind::full:
    case FaultKind::short_write:
      return doing == Doing::write;
    case FaultKind::busy:
      return doing == Doing::lock;
    case FaultKind::power_cut:
    case FaultKind::torn_power_cut:
      return doing == Doing::write || doing == Doing::truncate || doing == Doing::sync ||
             doing == Doing::remove;
  }
  return false;
}

// In the order of Doing.
constexpr int error_codes[] = {
    SQLITE_CANTOPEN,    SQLITE_IOERR_READ, SQLITE_IOERR_WRITE,  SQLITE_IOERR_TRUNCATE, SQLITE_IOERR_FSYNC,
    SQLITE_IOERR_FSTAT, SQLITE_IOERR_LOCK, SQLITE_IOERR_SHMMAP, SQLITE_IOERR_DELETE,   SQLITE_IOERR_ACCESS};
constexpr const char* names[] = {"open", "read", "write", "truncate", "sync",
                                 "size", "lock", "map",   "remove",   "look"};

int code_of(FaultKind kind, Doing doing) {
  switch (kind) {
    case FaultKind::full:
      return SQLITE_FULL;
    case FaultKind::busy:
      return SQLITE_BUSY;
    default:
      return error_codes[static_cast<std::size_t>(doing)];
  }
}

std::string content_of(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

/// The file as the last sync left it.
std::string synced_content(std::string content, const std::vector<Change>& changes) {
  for (auto change = changes.rbegin(); change != changes.rend(); ++change) {
    content.replace(std::min(change->offset, content.size()), change->before.size(), change->before);
    content.resize(change->size_before);
  }
  return content;
}

/// Some sectors as they were, some as they were to be.
std::string torn(const std::string& before, const std::string& after, std::mt19937& random) {
  constexpr std::size_t sector = 512;
  std::string mixed = random() % 2 == 0 ? before : after;
  for (std::size_t at = 0; at < mixed.size(); at += sector) {
    const std::string& source = random() % 2 == 0 ? before : after;
    const std::size_t length = std::min(sector, mixed.size() - at);
    if (at + length <= source.size()) mixed.replace(at, length, source, at, length);
  }
  return mixed;
}

void cut_power() {
  state.is_off = true;
  std::mt19937 random(state.fault.seed);
  for (const auto& [path, unsynced] : state.unsynced) {
    std::error_code gone;
    if (!fs::exists(path, gone)) continue;
    const bool is_torn = state.fault.kind == FaultKind::torn_power_cut;
    const std::string after = content_of(path);
    const std::string before = synced_content(after, unsynced.changes);
    if (unsynced.is_new && (!is_torn || random() % 2 == 0)) {
      fs::remove(path, gone);
    } else {
      std::ofstream(path, std::ios::binary | std::ios::trunc)
          << (is_torn ? torn(before, after, random) : before);
    }
  }
  state.unsynced.clear();
}

/// SQLITE_OK, or what the operation is to fail with.
int fate(Doing doing, const std::string* path) {
  const auto code = code_of(state.fault.kind, doing);
  if (state.is_off) return error_codes[static_cast<std::size_t>(doing)];
  if (state.fault.at == 0 || !can_fail(state.fault.kind, doing)) return SQLITE_OK;
  ++state.count;
  const bool strikes = state.fault.lasting ? state.count >= state.fault.at : state.count == state.fault.at;
  if (!strikes) return SQLITE_OK;
  if (!state.has_struck) {
    state.struck = std::string(names[static_cast<std::size_t>(doing)]) + " " +
                   (path == nullptr ? "a temporary file" : fs::path(*path).filename().string());
  }
  state.has_struck = true;
  if (cuts_power(state.fault.kind)) cut_power();
  return code;
}

bool is_traced(const File& file) {
  return file.path != nullptr && cuts_power(state.fault.kind);
}

std::size_t size_of(File& file) {
  sqlite3_int64 size = 0;
  file.real()->pMethods->xFileSize(file.real(), &size);
  return static_cast<std::size_t>(size);
}

/// Remembers what stands where a write or a truncation will change it.
void trace(File& file, std::size_t offset, std::size_t length) {
  if (!is_traced(file)) return;
  Change change{offset, {}, size_of(file)};
  if (offset < change.size_before) {
    change.before.resize(std::min(length, change.size_before - offset));
    file.real()->pMethods->xRead(file.real(), change.before.data(), static_cast<int>(change.before.size()),
                                 static_cast<sqlite3_int64>(offset));
  }
  state.unsynced[*file.path].changes.push_back(std::move(change));
}

int x_close(sqlite3_file* file) {
  File& own = file_of(file);
  const int code = own.real()->pMethods->xClose(own.real());
  delete own.path;
  return code;
}

int x_read(sqlite3_file* file, void* into, int amount, sqlite3_int64 offset) {
  File& own = file_of(file);
  if (const int code = fate(Doing::read, own.path)) return code;
  return own.real()->pMethods->xRead(own.real(), into, amount, offset);
}

int x_write(sqlite3_file* file, const void* from, int amount, sqlite3_int64 offset) {
  File& own = file_of(file);
  const int code = fate(Doing::write, own.path);
  if (code != SQLITE_OK && (state.is_off || state.fault.kind != FaultKind::short_write)) return code;
  trace(own, static_cast<std::size_t>(offset), static_cast<std::size_t>(amount));
  const int length = code == SQLITE_OK ? amount : amount / 2;
  const int written = own.real()->pMethods->xWrite(own.real(), from, length, offset);
  return code == SQLITE_OK ? written : code;
}

int x_truncate(sqlite3_file* file, sqlite3_int64 size) {
  File& own = file_of(file);
  if (const int code = fate(Doing::truncate, own.path)) return code;
  trace(own, static_cast<std::size_t>(size), size_of(own));
  return own.real()->pMethods->xTruncate(own.real(), size);
}

/// What is synced is remembered, not done: the tests are about power that goes in this process only.
int x_sync(sqlite3_file* file, int) {
  File& own = file_of(file);
  if (const int code = fate(Doing::sync, own.path)) return code;
  if (own.path != nullptr) state.unsynced.erase(*own.path);
  return SQLITE_OK;
}

int x_file_size(sqlite3_file* file, sqlite3_int64* size) {
  File& own = file_of(file);
  if (const int code = fate(Doing::size, own.path)) return code;
  return own.real()->pMethods->xFileSize(own.real(), size);
}

int x_lock(sqlite3_file* file, int level) {
  File& own = file_of(file);
  if (const int code = fate(Doing::lock, own.path)) return code;
  return own.real()->pMethods->xLock(own.real(), level);
}

int x_unlock(sqlite3_file* file, int level) {
  File& own = file_of(file);
  return own.real()->pMethods->xUnlock(own.real(), level);
}

int x_check_reserved_lock(sqlite3_file* file, int* is_held) {
  File& own = file_of(file);
  return own.real()->pMethods->xCheckReservedLock(own.real(), is_held);
}

int x_file_control(sqlite3_file* file, int what, void* value) {
  File& own = file_of(file);
  return own.real()->pMethods->xFileControl(own.real(), what, value);
}

int x_sector_size(sqlite3_file* file) {
  File& own = file_of(file);
  return own.real()->pMethods->xSectorSize(own.real());
}

int x_device_characteristics(sqlite3_file* file) {
  File& own = file_of(file);
  return own.real()->pMethods->xDeviceCharacteristics(own.real());
}

int x_shm_map(sqlite3_file* file, int page, int size, int extends, void volatile** memory) {
  File& own = file_of(file);
  if (const int code = fate(Doing::map, own.path)) return code;
  return own.real()->pMethods->xShmMap(own.real(), page, size, extends, memory);
}

int x_shm_lock(sqlite3_file* file, int offset, int count, int flags) {
  File& own = file_of(file);
  if ((flags & SQLITE_SHM_LOCK) != 0) {
    if (const int code = fate(Doing::lock, own.path)) return code;
  }
  return own.real()->pMethods->xShmLock(own.real(), offset, count, flags);
}

void x_shm_barrier(sqlite3_file* file) {
  File& own = file_of(file);
  own.real()->pMethods->xShmBarrier(own.real());
}

int x_shm_unmap(sqlite3_file* file, int removes) {
  File& own = file_of(file);
  return own.real()->pMethods->xShmUnmap(own.real(), removes);
}

int x_open(sqlite3_vfs*, const char* name, sqlite3_file* file, int flags, int* given) {
  File& own = file_of(file);
  own.base.pMethods = nullptr;
  std::string path = name == nullptr ? "" : name;
  if (const int code = fate(Doing::open, name == nullptr ? nullptr : &path)) return code;
  std::error_code ignored;
  const bool is_new = name != nullptr && !fs::exists(path, ignored);
  const int code = state.real->xOpen(state.real, name, own.real(), flags, given);
  if (code != SQLITE_OK) {
    if (own.real()->pMethods != nullptr) own.real()->pMethods->xClose(own.real());
    return code;
  }
  own.path = name == nullptr ? nullptr : new std::string(path);
  if (is_new && is_traced(own)) state.unsynced[path].is_new = true;
  own.base.pMethods = &state.methods;
  return SQLITE_OK;
}

int x_delete(sqlite3_vfs*, const char* name, int syncs) {
  const std::string path = name;
  if (const int code = fate(Doing::remove, &path)) return code;
  state.unsynced.erase(path);
  return state.real->xDelete(state.real, name, syncs);
}

int x_access(sqlite3_vfs*, const char* name, int flags, int* result) {
  const std::string path = name;
  if (const int code = fate(Doing::look, &path)) return code;
  return state.real->xAccess(state.real, name, flags, result);
}

/// Waiting for a lock takes no time.
int x_sleep(sqlite3_vfs*, int microseconds) {
  return microseconds;
}

void fill_methods() {
  state.methods = {};
  state.methods.iVersion = 2;  // without xFetch: nothing is read past the counting
  state.methods.xClose = x_close;
  state.methods.xRead = x_read;
  state.methods.xWrite = x_write;
  state.methods.xTruncate = x_truncate;
  state.methods.xSync = x_sync;
  state.methods.xFileSize = x_file_size;
  state.methods.xLock = x_lock;
  state.methods.xUnlock = x_unlock;
  state.methods.xCheckReservedLock = x_check_reserved_lock;
  state.methods.xFileControl = x_file_control;
  state.methods.xSectorSize = x_sector_size;
  state.methods.xDeviceCharacteristics = x_device_characteristics;
  state.methods.xShmMap = x_shm_map;
  state.methods.xShmLock = x_shm_lock;
  state.methods.xShmBarrier = x_shm_barrier;
  state.methods.xShmUnmap = x_shm_unmap;
}

}  // namespace

const char* text_of(FaultKind kind) {
  constexpr const char* texts[] = {"error", "full", "short write", "busy", "power cut", "torn power cut"};
  return texts[static_cast<std::size_t>(kind)];
}

FaultyDisk::FaultyDisk() {
  state = {};
  state.real = sqlite3_vfs_find(nullptr);
  fill_methods();
  state.own = *state.real;
  state.own.zName = "faulty";
  state.own.pNext = nullptr;
  state.own.szOsFile = static_cast<int>(sizeof(File)) + state.real->szOsFile;
  state.own.xOpen = x_open;
  state.own.xDelete = x_delete;
  state.own.xAccess = x_access;
  state.own.xSleep = x_sleep;
  if (sqlite3_vfs_register(&state.own, 1) != SQLITE_OK) throw std::runtime_error("no disk can be registered");
}

FaultyDisk::~FaultyDisk() {
  sqlite3_vfs_unregister(&state.own);
  sqlite3_vfs_register(state.real, 1);
}

void FaultyDisk::arm(const Fault& fault) {
  state.fault = fault;
  state.count = 0;
  state.has_struck = state.is_off = false;
  state.struck.clear();
  state.unsynced.clear();
}

void FaultyDisk::mend() {
  state.fault = {};
  state.is_off = false;
  state.unsynced.clear();
}

bool FaultyDisk::has_struck() const {
  return state.has_struck;
}

std::string FaultyDisk::struck() const {
  return state.struck;
}

std::uint64_t FaultyDisk::operations() const {
  return state.count;
}

}  // namespace support
