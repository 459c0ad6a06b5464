#include "tests/support/cut_disk.h"

#include <algorithm>

namespace cut {
namespace {

constexpr std::size_t kSector = 512;

bool coin(Random& random) { return (random() & 1U) != 0; }

std::string keep_all(std::string content, const std::vector<Step>& pending) {
  for (const Step& step : pending) lay(step, content);
  return content;
}

// Some writes in order arrived, the last of them in part.
std::string torn_prefix(std::string content, const std::vector<Step>& pending, Random& random) {
  const std::size_t whole = random() % (pending.size() + 1);
  for (std::size_t i = 0; i < whole; ++i) lay(pending[i], content);
  if (whole == pending.size()) return content;
  Step torn = pending[whole];
  if (torn.op != Op::Write) return content;
  torn.data.resize(random() % (torn.data.size() + 1));
  lay(torn, content);
  return content;
}

// Each sector of each write arrived or not.
std::string sectors(std::string content, const std::vector<Step>& pending, Random& random) {
  for (const Step& step : pending) {
    if (step.op != Op::Write) {
      if (coin(random)) lay(step, content);
      continue;
    }
    for (std::size_t from = 0; from < step.data.size();) {
      const std::size_t offset = static_cast<std::size_t>(step.at) + from;
      const std::size_t part = std::min(kSector - offset % kSector, step.data.size() - from);
      Step piece{Op::Write, {}, static_cast<std::int64_t>(offset), step.data.substr(from, part)};
      if (coin(random)) lay(piece, content);
      from += part;
    }
  }
  return content;
}

// The new size arrived before the data: what lies between is whatever the disk held there.
std::string garbage_growth(const std::string& content, const std::vector<Step>& pending,
                           Random& random) {
  const std::size_t size = keep_all(content, pending).size();
  std::string grown = content;
  while (grown.size() < size) grown += static_cast<char>(random());
  return sectors(std::move(grown), pending, random);
}

}  // namespace

void lay(const Step& step, std::string& content) {
  const auto at = static_cast<std::size_t>(step.at);
  if (step.op == Op::Truncate) content.resize(at);
  if (step.op != Op::Write || step.data.empty()) return;
  if (content.size() < at + step.data.size()) content.resize(at + step.data.size());
  step.data.copy(content.data() + at, step.data.size());
}

World::World(const Files& durable, bool sync_lies) : sync_lies_(sync_lies) {
  for (const auto& [name, content] : durable) {
    now_[name] = static_cast<int>(inodes_.size());
    inodes_.push_back({content, {}, false});
  }
  durable_ = now_;
}

void World::flush_folder() {
  durable_ = now_;
  since_.clear();
}

void World::play(const Step& step) {
  const auto inode = [&]() -> Inode& {
    return inodes_[static_cast<std::size_t>(now_.at(step.file))];
  };
  switch (step.op) {
    case Op::Create:
      now_[step.file] = static_cast<int>(inodes_.size());
      inodes_.push_back({{}, {}, step.log_like});
      since_.push_back(now_);
      break;
    case Op::Delete:
      now_.erase(step.file);
      since_.push_back(now_);
      break;
    case Op::Write:
    case Op::Truncate:
      inode().pending.push_back(step);
      break;
    case Op::Sync:
      if (sync_lies_) break;
      inode().durable = keep_all(std::move(inode().durable), inode().pending);
      inode().pending.clear();
      if (inode().flushes_folder) flush_folder();
      inode().flushes_folder = false;
      break;
    case Op::SyncFolder:
      if (!sync_lies_) flush_folder();
      break;
    case Op::Attempt:
    case Op::Ack:
      break;
  }
}

World::Folder World::surviving_folder(Damage damage, Random& random) const {
  if (damage == Damage::LoseAll) return durable_;
  if (damage == Damage::KeepAll) return now_;
  const std::size_t changes = random() % (since_.size() + 1);
  return changes == 0 ? durable_ : since_[changes - 1];
}

Files World::cut(Damage damage, Random& random) const {
  Files files;
  for (const auto& [name, number] : surviving_folder(damage, random)) {
    const Inode& inode = inodes_[static_cast<std::size_t>(number)];
    std::string& content = files[name];
    switch (damage) {
      case Damage::LoseAll:
        content = inode.durable;
        break;
      case Damage::KeepAll:
        content = keep_all(inode.durable, inode.pending);
        break;
      case Damage::TornPrefix:
        content = torn_prefix(inode.durable, inode.pending, random);
        break;
      case Damage::Sectors:
        content = sectors(inode.durable, inode.pending, random);
        break;
      case Damage::GarbageGrowth:
        content = garbage_growth(inode.durable, inode.pending, random);
        break;
    }
  }
  return files;
}

}  // namespace cut
