using Coldpeel.Workshop.Findings;

namespace Coldpeel.Desk.Rooms;

/// <summary>Takes all of a workshop into one file while people go on working.</summary>
public sealed class BackUpWorkshop(OpenedWorkshop workshop)
{
    /// <summary>Writes the file, which must not be there yet.</summary>
    public Fault? Run(string path) => workshop.Store.Backup(path);
}
