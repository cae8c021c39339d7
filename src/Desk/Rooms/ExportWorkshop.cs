using Coldpeel.Workshop.Findings;

namespace Coldpeel.Desk.Rooms;

/// <summary>Writes everything in forms that any program reads: JSON, CSV, and the files by their hash.</summary>
public sealed class ExportWorkshop(OpenedWorkshop workshop)
{
    /// <summary>Writes the folder, which must not be there yet.</summary>
    public Fault? Run(string folder) => workshop.Store.Export(folder);
}
