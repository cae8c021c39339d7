using Coldpeel.Workshop.Findings;

namespace Coldpeel.Desk.Rooms;

/// <summary>Puts a backup in the place of all that is here; what was here is kept in the folder "backups" first.</summary>
public sealed class RestoreWorkshop(OpenedWorkshop workshop)
{
    /// <summary>All of it, or nothing is changed.</summary>
    public Fault? Run(string path) => workshop.Store.Restore(path);
}
