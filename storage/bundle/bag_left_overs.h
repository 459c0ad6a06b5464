// storage/bundle/bag_left_overs.h -- unfinished bundles, and how they are taken away.
//
// Internal to storage. Only what this program makes is removed, and only where it was seen: a plain
// folder on the medium of its parent, of the same owner or ours, that holds nothing but the plain
// files and folders of a bundle. Anything else (a link above all, whatever it is called) stays. The
// caller holds `parent` (Files::hold), so that no link on the way is followed.
#pragma once
#include <string>
#include <vector>

#include "storage/bundle/bag_plan.h"
#include "storage/disk/files.h"

namespace storage {

// Takes away what interrupted writes of `device_short` left in `parent`, which is `above`. A
// failure is no reason to stop: at worst some room stays taken. Gives the names of those that are
// not ours to remove.
[[nodiscard]] std::vector<std::string> clean_left_overs(Files& files, const std::string& parent,
                                                        const FileInfo& above,
                                                        const std::string& device_short);

// Takes away what was written of `plan` below `part`, as far as it can.
void remove_written(Files& files, const std::string& part, const BagPlan& plan);

}  // namespace storage
