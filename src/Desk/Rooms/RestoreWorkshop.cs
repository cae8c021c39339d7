using System.Globalization;
using Coldpeel.Desk.Orders;
using Coldpeel.Storage;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Desk.Rooms;

/// <summary>Puts a backup in the place of all that is here; what was here is kept in the folder "backups" first.</summary>
public sealed class RestoreWorkshop(OpenedWorkshop workshop)
{
    /// <summary>As <see cref="Run"/>, from outside: not while the workshop is open in a browser, whose pages would go on with what is no longer there.</summary>
    public Fault? RunFromOutside(string path, string who) =>
        ServedMark.IsOn(workshop.Folder)
            ? new Fault(
                workshop.Folder,
                "is open in the browser now, and its pages would go on with what is no longer there.",
                "Close it first (Ctrl+C where it was started), or bring the backup back from its own screen, under Workshop."
            )
            : Run(path, who);

    /// <summary>All of it, or nothing is changed; the history tells of it, and every open screen of the bench begins anew.</summary>
    public Fault? Run(string path, string who)
    {
        if (workshop.Store.Restore(path) is { } fault)
        {
            return fault;
        }

        workshop.Store.Rooms.Set(
            OpenedWorkshop.BroughtBackSetting,
            workshop.Now.UtcDateTime.ToString("yyyy-MM-dd HH:mm:ss.fff", CultureInfo.InvariantCulture),
            workshop.Now,
            who
        );
        workshop.Bench.Tell();
        // An earlier version's backup has not been looked over.
        workshop.Store.LookOver(LookOfOrder.Of);
        return null;
    }
}
