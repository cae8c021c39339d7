using System.Text.Json.Nodes;
using Coldpeel.Workshop.Press;

namespace Coldpeel.Files.Press;

/// <summary>Measured contacts as a press of the workshop file keeps them.</summary>
public static class PressContactsText
{
    /// <summary>The object that stands at "contacts".</summary>
    public static string Of(PressContacts contacts) => Json(contacts).ToJsonString();

    internal static JsonObject Json(PressContacts contacts)
    {
        ArgumentNullException.ThrowIfNull(contacts);
        var json = new JsonObject();
        foreach (
            var (key, value) in (IEnumerable<(string, double?)>)
                [("upperWm2K", contacts.UpperWm2K), ("itemWm2K", contacts.ItemWm2K), ("padWm2K", contacts.PadWm2K)]
        )
        {
            if (value is { } found)
            {
                json[key] = found;
            }
        }

        return json;
    }
}
